/** One sentence for whoever must wait before the next try. `seconds` until then. */
export const tooManyCodes = ({ seconds }: { seconds: number }): string =>
  `There were too many wrong codes. Wait ${seconds} ${seconds === 1 ? 'second' : 'seconds'}, then try again`
