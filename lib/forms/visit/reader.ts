import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import { dimensionOf, displayUnit, parseQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'

/** Something typed that may well be right, but must not be taken without asking. */
export type Question = { message: string; choices: readonly { value: string; label: string }[] }

/** A level may lie this far above the measuring point: a flowing well with a standpipe. */
const LEVEL_MIN_M = -10

/**
 * The sent fields of a visit form while they are being read: collects one sentence a field, and
 * questions where a value is odd. Blank is an omission, never zero.
 */
export class Reader {
  readonly errors: Record<string, string> = {}
  readonly questions: Record<string, Question> = {}

  constructor(
    readonly typed: Readonly<Record<string, string>>,
    readonly system: UnitSystem,
  ) {}

  /** The text of a field without outer blanks; '' where nothing was typed. */
  text(field: string): string {
    return (this.typed[field] ?? '').trim()
  }

  /** The text of a field, or undefined where blank; too long a text is refused with its limit. */
  optional(field: string, what: string, max: number): string | undefined {
    const text = this.text(field)
    if (text.length > max)
      this.refuse(
        field,
        `The ${what} is longer than ${max} characters. Shorten it or put the rest in the note.`,
      )
    return text === '' || text.length > max ? undefined : text
  }

  /** A quantity in the reader's usual unit or with its own; undefined where blank or refused. */
  quantity(field: string, use: Use): StoredQuantity | undefined {
    return this.read(field, this.text(field), use)
  }

  /** The same for a piece of a field's text, as in a list of readings. */
  read(field: string, text: string, use: Use): StoredQuantity | undefined {
    const unit = displayUnit(use, this.system)
    const reading = parseQuantity(text, {
      dimension: dimensionOf(unit),
      unit,
      locale: 'en',
      ...(use === 'depth' ? { min: LEVEL_MIN_M } : {}),
    })
    if (reading.kind === 'problem') this.refuse(field, reading.message)
    return reading.kind === 'value' ? { si: reading.quantity.si, typed: reading.quantity.typed } : undefined
  }

  /** The first complaint of a field stands. */
  refuse(field: string, message: string): void {
    this.errors[field] ??= message
  }

  /** Asks, unless the person has already answered; answers what was answered, or null. */
  ask(field: string, question: Question): string | null {
    const answer = this.text(`answer:${field}`)
    if (question.choices.some((choice) => choice.value === answer)) return answer
    this.questions[field] = question
    return null
  }
}
