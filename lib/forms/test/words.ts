import type { TestKind } from './draft'

/** What each test is called and what it is for, on screen. */
export const TEST_WORDS: Record<TestKind, { title: string; what: string; needs: string }> = {
  recovery: {
    title: 'Recovery test',
    what: 'Pump down, stop, and time how the water comes back',
    needs: 'Half an hour to two hours. Tells how much the well gives, without needing the flow.',
  },
  drawdown: {
    title: 'Drawdown test',
    what: 'Pump at one steady flow and time how the level falls',
    needs: 'An hour or more at a measured flow. Tells the flow for each length of drawdown at a stated time.',
  },
  step: {
    title: 'Step test',
    what: 'Pump at three or more rising flows and read the level at the end of each',
    needs: 'Three hours or more. Tells apart what the ground takes and what the well itself takes.',
  },
}

const KINDS = { 'recovery-test': 'recovery', 'drawdown-test': 'drawdown', 'step-test': 'step' } as const

/** The kind of test that a stored line is. */
export const kindOf = (fact: { kind: keyof typeof KINDS }): TestKind => KINDS[fact.kind]
