import { slug } from '@/lib/domain/upkeep'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import { newId } from '@/lib/records/ids'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, visibleWell } from '@/lib/records/wells'
import { installer } from '../setup/viewers'

export const AT = '2026-11-01T12:00:00.000Z'

/** A well with one yearly duty that falls due on `dueOn`. Answers well, household and duty. */
export async function wellDue(
  db: Db,
  label: string,
  ownerName: string,
  dueOn: string,
  name = 'Bacteria sample',
): Promise<{ wellId: string; ownerId: string; dutyId: string }> {
  const made = await createWell(db, installer, { ...bareWell(label), name: `${label} spring`, ownerName }, AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  const duty = await addDuty(
    db,
    installer,
    made.id,
    {
      key: slug(name),
      name,
      consequence: 'health',
      everyMonths: 12,
      everyRunS: null,
      everyM3: null,
      condition: null,
      conditionLimitSi: null,
      lastDoneOn: `${Number(dueOn.slice(0, 4)) - 1}${dueOn.slice(4)}`,
      typed: {},
    },
    AT,
  )
  if (duty.kind !== 'stored') throw new Error(duty.kind)
  return { wellId: made.id, ownerId: visibleWell(db, installer, made.id)?.ownerId ?? '', dutyId: duty.id }
}

/** Somebody with an account, of some households or of the office. Nobody signs in here: no password is made. */
export async function person(
  db: Db,
  role: 'owner' | 'installer' | 'technician',
  ...ownerIds: string[]
): Promise<string> {
  const id = newId()
  await db.prisma.user.create({
    data: {
      id,
      name: `Person ${id.slice(-4)}`,
      email: `${id}@people.example`,
      role,
      memberships: { create: ownerIds.map((ownerId) => ({ ownerId, since: '2020-01-01' })) },
    },
  })
  return id
}
