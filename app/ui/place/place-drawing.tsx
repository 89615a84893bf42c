import type { MeasuredPlace, PlaceFound } from '@/lib/domain/logbook/place-record'
import { type Candidate, type Drawing, drawPlace } from '@/lib/domain/place'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

const SIZE = 400
const MARGIN = 64
/** An ellipse smaller than this on the sheet is not seen: the cross stands there anyway. */
const SEEN_PT = 2
/** Where on its tape a length stands: nearer to the mark, so that lengths do not meet at the head. */
const NEAR_MARK = 0.42

type Props = { measured: Pick<MeasuredPlace, 'fact'>; found: PlaceFound; units: UnitSystem }

/** Marks, tapes and head to scale, drawn on the server; the table of ties beside it says the same. */
export function PlaceDrawing({ measured, found, units }: Props) {
  const { marks, located } = found
  if (marks?.kind !== 'placed' || located?.kind !== 'located') return null
  const candidates = shown(found)
  const drawing = drawPlace(marks.marks, candidates, SIZE, MARGIN, units)
  const seen = drawing.heads.some((head) => head.majorPt >= SEEN_PT)
  const middle = drawing.heads[0]?.y ?? 0
  return (
    <figure className="place-drawing">
      <svg
        viewBox={`0 0 ${SIZE} ${SIZE}`}
        role="img"
        aria-label={`The head and its ${drawing.marks.length} marks, to scale. The table of ties says the same.`}
      >
        <Tapes {...{ measured, drawing, units }} />
        {drawing.marks.map(({ name, letter, x, y }) => (
          <g key={name}>
            <rect className="place-mark" x={x - 6} y={y - 6} width="12" height="12" />
            <text className="place-letter" x={x} y={y > middle ? y + 22 : y - 12} textAnchor="middle">
              {letter}
            </text>
          </g>
        ))}
        {drawing.heads.map((head, i) => (
          <Head key={`${head.x} ${head.y}`} head={head} sole={drawing.heads.length === 1} number={i + 1} />
        ))}
        <Bar bar={drawing.bar} />
        {marks.northUp ? <North /> : null}
      </svg>
      <figcaption className="muted small">
        Squares are marks;{' '}
        {found.choice?.kind === 'two' ? 'each cross is a possible place' : 'the cross is the head'}.{' '}
        {sureness(found, seen)}{' '}
        {marks.northUp
          ? 'North is up.'
          : 'Which way is north was not recorded: the first two marks lie upwards.'}
      </figcaption>
    </figure>
  )
}

/** An ellipse is worth its number only while the ties fit each other. */
function sureness({ findings }: PlaceFound, seen: boolean): string {
  if (findings.some((finding) => finding.kind === 'wrong'))
    return 'How sure it is cannot be said: the record does not fit together.'
  return seen
    ? 'The ellipse around it holds it 95 times in 100.'
    : 'The ellipse that holds it 95 times in 100 is smaller than the cross.'
}

function shown({ choice, located }: PlaceFound): readonly Candidate[] {
  if (choice?.kind === 'one') return [choice.chosen.candidate]
  return located?.kind === 'located' ? located.candidates : []
}

type TapesProps = { measured: Pick<MeasuredPlace, 'fact'>; drawing: Drawing; units: UnitSystem }

/** Lines first, then lengths: no line crosses a number. */
function Tapes({ measured, drawing, units }: TapesProps) {
  const tapes = measured.fact.ties.flatMap(({ mark, tape }) => {
    const from = drawing.marks.find(({ name }) => name === mark)
    return from ? drawing.heads.map((head, i) => ({ from, head, first: i === 0, lengthM: tape.si })) : []
  })
  return (
    <>
      {tapes.map(({ from, head }) => (
        <line
          key={`${from.name} ${head.x} ${head.y}`}
          className="place-tape"
          x1={from.x}
          y1={from.y}
          x2={head.x}
          y2={head.y}
        />
      ))}
      {tapes
        .filter(({ first }) => first)
        .map(({ from, head, lengthM }) => (
          <text
            key={from.name}
            className="chart-halo place-length"
            x={from.x + NEAR_MARK * (head.x - from.x)}
            y={from.y + NEAR_MARK * (head.y - from.y)}
            dy="0.35em"
            textAnchor="middle"
          >
            {formatQuantity(lengthM, 'distance', units)}
          </text>
        ))}
    </>
  )
}

function Head({ head, sole, number }: { head: Drawing['heads'][number]; sole: boolean; number: number }) {
  const { x, y, majorPt, minorPt, turnDeg } = head
  return (
    <g>
      {majorPt < SEEN_PT ? null : (
        <ellipse
          className="place-ellipse"
          cx={x}
          cy={y}
          rx={Math.max(minorPt, 1)}
          ry={majorPt}
          transform={`rotate(${turnDeg} ${x} ${y})`}
        />
      )}
      <path className="place-head" d={`M${x - 9} ${y}h18M${x} ${y - 9}v18`} />
      <text className="place-letter chart-halo" x={x + 12} y={y + 16}>
        {sole ? 'head' : `head? ${number}`}
      </text>
    </g>
  )
}

function Bar({ bar }: { bar: Drawing['bar'] }) {
  const left = 12
  const top = SIZE - 14
  return (
    <g>
      <path className="place-bar" d={`M${left} ${top - 6}v6h${bar.points}v-6`} />
      <text className="chart-label" x={left + bar.points + 8} y={top}>
        {bar.length} {bar.unit}
      </text>
    </g>
  )
}

function North() {
  return (
    <g transform={`translate(${SIZE - 22} 34)`}>
      <path className="place-north" d="M0 -24 7 2 0 -4 -7 2Z" />
      <text className="chart-label" y="18" textAnchor="middle">
        N
      </text>
    </g>
  )
}
