import { MAP_STATUSES, type MapStatus } from '@/lib/domain/place'

/** Outlines on a field of 16 by 16, one shape a status, so that nothing hangs on colour. */
export const SYMBOLS: Readonly<Record<MapStatus, { d: string; token: string }>> = {
  warning: { d: 'M2 2h12v12h-12zM5 5l6 6M11 5l-6 6', token: '--status-alarm' },
  past: { d: 'M8 1.5 15 14.5H1z', token: '--status-alarm' },
  week: { d: 'M8 1 15 8 8 15 1 8z', token: '--status-watch' },
  month: { d: 'M2 2h12v12h-12z', token: '--status-note' },
  later: { d: 'M1.5 8a6.5 6.5 0 1 1 13 0a6.5 6.5 0 1 1 -13 0z', token: '--status-calm' },
  unknown: { d: 'M1.5 8a6.5 6.5 0 1 1 13 0a6.5 6.5 0 1 1 -13 0z', token: '' },
}

/** The worse, the higher: a cluster shows the worst of its wells. */
export const rankOf = (status: MapStatus): number => MAP_STATUSES.length - MAP_STATUSES.indexOf(status)

const ofRank = (rank: number): MapStatus => MAP_STATUSES[MAP_STATUSES.length - rank] ?? 'unknown'

type Picture = { data: ImageData; pixelRatio: number }

/**
 * The picture that a layer asks for by name, drawn when it is first needed: "well:past", "many:6:120" (the worst rank
 * and how many), "label:FW-012". No letters are fetched from anywhere. Null for any other name.
 */
export function pictureOf(name: string): Picture | null {
  const [kind = '', ...rest] = name.split(':')
  const words = rest.join(':')
  if (kind === 'well')
    return draw(22, 22, (pen) => symbol(pen, MAP_STATUSES.find((s) => s === words) ?? 'unknown', 22))
  if (kind === 'many') return many(ofRank(Number(rest[0])), rest[1] ?? '')
  return kind === 'label' ? label(words) : null
}

const RATIO = 2
const FONT = '600 13px "Source Sans 3 Variable", system-ui, sans-serif'

function draw(width: number, height: number, paint: (pen: CanvasRenderingContext2D) => void): Picture | null {
  const canvas = document.createElement('canvas')
  canvas.width = width * RATIO
  canvas.height = height * RATIO
  const pen = canvas.getContext('2d')
  if (!pen) return null
  pen.scale(RATIO, RATIO)
  paint(pen)
  return { data: pen.getImageData(0, 0, canvas.width, canvas.height), pixelRatio: RATIO }
}

const colour = (token: string) => getComputedStyle(document.documentElement).getPropertyValue(token).trim()

function symbol(pen: CanvasRenderingContext2D, status: MapStatus, size: number): void {
  const { d, token } = SYMBOLS[status]
  const shape = new Path2D(d)
  pen.save()
  pen.scale(size / 16, size / 16)
  pen.fillStyle = token === '' ? colour('--sheet') : colour(token)
  pen.strokeStyle = colour('--status-outline')
  pen.lineWidth = 1.4
  pen.fill(shape)
  pen.stroke(shape)
  pen.restore()
}

/** A plate with the worst symbol and how many wells stand there. */
function many(worst: MapStatus, count: string): Picture | null {
  const width = 32 + count.length * 9
  return draw(width, 28, (pen) => {
    plate(pen, width, 28, 14)
    pen.translate(7, 6)
    symbol(pen, worst, 16)
    pen.translate(-7, -6)
    write(pen, count, 27, 14)
  })
}

function label(words: string): Picture | null {
  const short = words.length > 24 ? `${words.slice(0, 23)}…` : words
  const width = Math.ceil(short.length * 8 + 8)
  return draw(width, 18, (pen) => {
    plate(pen, width, 18, 4)
    write(pen, short, 4, 9)
  })
}

function plate(pen: CanvasRenderingContext2D, width: number, height: number, round: number): void {
  pen.beginPath()
  pen.roundRect(0.5, 0.5, width - 1, height - 1, round)
  pen.fillStyle = colour('--sheet')
  pen.fill()
  pen.strokeStyle = colour('--edge')
  pen.lineWidth = 1
  pen.stroke()
}

function write(pen: CanvasRenderingContext2D, words: string, x: number, y: number): void {
  pen.font = FONT
  pen.fillStyle = colour('--ink')
  pen.textBaseline = 'middle'
  pen.fillText(words, x, y + 0.5)
}
