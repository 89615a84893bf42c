/** What one sample says, in plain words: what it means, and what it does not. Never "safe". */
import { rankOfFinding } from './finding-order'
import { schemeWords } from './schemes'
import type { SampleVerdict } from './verdict-types'

export type SampleSaid = {
  tone: 'alarm' | 'watch' | 'calm' | 'unsure'
  word: string
  /** What the sample says. */
  means: string
  /** What must not be read into it. */
  notMeant: readonly string[]
}

/** The verdict on a sample in a word and a few sentences. */
export function saySample(verdict: SampleVerdict): SampleSaid {
  const name = schemeWords(verdict.scheme, verdict.findings)
  return { ...VERDICTS[verdict.verdict](verdict, name), notMeant: notMeant(verdict) }
}

type Said = Omit<SampleSaid, 'notMeant'>

const VERDICTS: Readonly<Record<SampleVerdict['verdict'], (verdict: SampleVerdict, scheme: string) => Said>> =
  {
    exceeds: (verdict, scheme) => ({
      tone: 'alarm',
      word: 'Above a limit',
      means: `${listed(deciding(verdict, 'exceeds'))}: above the limits of ${scheme} in this sample. Do not wait for the next test: see what to do below.`,
    }),
    inconclusive: (verdict, scheme) => ({
      tone: 'watch',
      word: 'Cannot be said',
      means: `This sample does not settle whether the water meets the limits of ${scheme}. Not settled: ${listed(deciding(verdict, 'inconclusive')) || 'a result that was left out'}. The reason stands beside each.`,
    }),
    'not-tested': (verdict, scheme) => ({
      tone: 'unsure',
      word: 'Not tested for all that counts',
      means: `Not tested, or without a result: ${listed(verdict.notTested)}. Without that nothing is said about the limits of ${scheme}.`,
    }),
    meets: ({ afterTreatment }, scheme) => ({
      tone: afterTreatment ? 'unsure' : 'calm',
      word: afterTreatment
        ? 'Met the limits after treatment: nothing is said of the well'
        : 'Met the limits, for what was tested',
      means: `Everything in this sample that has a limit in ${scheme} was at or below it, and bacteria and nitrate were tested.`,
    }),
  }

/** Names of what decides and has that word, each once, the worst first. */
function deciding(verdict: SampleVerdict, word: 'exceeds' | 'inconclusive'): string[] {
  const named = verdict.findings
    .filter((each) => each.decides && each.verdict === word && each.reason !== 'part-missing')
    .sort((a, b) => rankOfFinding(a) - rankOfFinding(b))
    .map((each) => each.name)
  return [...new Set(named)]
}

function notMeant(verdict: SampleVerdict): string[] {
  const found = new Set(
    verdict.findings.filter((each) => each.verdict === 'exceeds' && each.decides).map((each) => each.analyte),
  )
  const bacteria = ['total-coliform', 'e-coli', 'fecal-coliform', 'enterococci'].some((id) => found.has(id))
  return [
    'It speaks for one bottle, from one tap, on one day. Rain, a flood or a repair can change the water the day after.',
    'It says nothing of anything that was not tested.',
    ...(verdict.afterTreatment
      ? [
          'It was taken after treatment. It says nothing of the well itself, of taps that are not treated, or of the day on which the treatment stops.',
        ]
      : []),
    ...(bacteria
      ? [
          'Coliforms need not make anybody ill by themselves. They show that what lives on the surface finds a way in, and what comes that way can.',
        ]
      : []),
    ...(found.has('nitrate') || found.has('nitrate-nitrite')
      ? ['Boiling does not take nitrate out of water. It makes it stronger.']
      : []),
    ...(verdict.verdict === 'meets'
      ? []
      : ['Clear water without smell or taste is no sign that it is better than this.']),
  ]
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
