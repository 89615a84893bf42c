/** What is wrong with one place of a file. `row` is the line in a text file, the row number in a sheet. */
export type Problem = {
  /** Null where the whole file is meant. */
  row: number | null
  /** The heading of the column, or '' where the whole row is meant. */
  column: string
  /** The text found there, '' where there is none. */
  value: string
  message: string
}

/** A problem in one sentence, with the file, the row and the column in front. */
export function sayProblem(fileName: string, problem: Problem): string {
  const column = problem.column === '' ? '' : ` ${problem.column}:`
  return `${fileName}:${problem.row ?? 1}:${column} ${problem.message}`
}
