import { showDay } from '@/app/ui/show-day'
import { AGAIN_KEY, lengthText, type ProposedStop, timeText } from '@/lib/domain/place'
import { type Day, daysShown, type UnitSystem } from '@/lib/domain/quantity'
import type { ProposalWish, RoundProposal } from '@/lib/records/round-proposal'

/** One stop of a proposal as the form shows it. `keys` are the duties to plan, with commas between. */
export type PlanStop = {
  wellId: string
  label: string
  name: string | null
  keys: string
  times: string
  duties: { words: string; whileThere: boolean }[]
  driving: string
  notes: readonly string[]
}

export type PlanDay = { day: Day; title: string; summary: string; stops: PlanStop[] }

/** A well that cannot be routed and may be added by hand. */
export type ByHand = { wellId: string; label: string; keys: string; duties: string }

export function planDays(
  { proposal, names }: RoundProposal,
  wish: ProposalWish,
  units: UnitSystem,
): PlanDay[] {
  return proposal.days.map(({ day, stops, schedule }) => ({
    day,
    title: `${WEEKDAYS.format(new Date(`${day}T12:00:00Z`))}, ${showDay(day, units)}`,
    summary:
      stops.length === 0
        ? 'Nothing due fits on this day.'
        : `${stops.length} ${stops.length === 1 ? 'stop' : 'stops'} · leave ${wish.startAt}, home ${timeText(schedule.homeS)} · ${lengthText(schedule.travelS)} driving`,
    stops: stops.map((stop) => planStop(stop, names[stop.wellId] ?? null, units)),
  }))
}

const WEEKDAYS = new Intl.DateTimeFormat('en-GB', { weekday: 'long', timeZone: 'UTC' })

function planStop(
  { wellId, label, times, duties, reasons, notes }: ProposedStop,
  name: string | null,
  units: UnitSystem,
): PlanStop {
  const wait = times.waitS >= 60 ? `, wait ${lengthText(times.waitS)}` : ''
  return {
    wellId,
    label,
    name,
    keys: duties
      .map((duty) => duty.key)
      .filter((key) => key !== AGAIN_KEY)
      .join(','),
    times: `Arrive ${timeText(times.arriveS)}${wait}, leave ${timeText(times.leaveS)}`,
    duties: duties.map(({ reason, whileThere }) => ({ words: daysShown(reason.words, units), whileThere })),
    driving: reasons.at(-1)?.words ?? '',
    notes,
  }
}

/** The wells with something due that have no coordinate: they come with the first day, if at all. */
export function unrouted({ proposal, duties }: RoundProposal, wish: ProposalWish): ByHand[] {
  const wells = new Map<string, ByHand>()
  for (const { wellId, label, code, duties: names } of proposal.leftOut) {
    if (code !== 'no-coordinate') continue
    const before = wells.get(wellId)
    const own = (duties[wellId] ?? []).map((duty) => duty.key).filter((key) => key !== AGAIN_KEY)
    wells.set(wellId, {
      wellId,
      label,
      keys: own.join(','),
      duties: [before?.duties, names.join(', ')].filter(Boolean).join(', '),
    })
  }
  return wish.days.length === 0 ? [] : [...wells.values()]
}
