/**
 * What a household does first when something is wrong with its well. Common practice, no published source, but for the
 * flood advice: not drinking until a sample is clear, and keeping away from wet electrics, is what US EPA ("What to do
 * with your private well after a flood") and US CDC say (from memory).
 */
export type Advice = { key: string; title: string; steps: readonly string[] }

export const OWNER_ADVICE: readonly Advice[] = [
  {
    key: 'floods',
    title: 'Water has stood over the well',
    steps: [
      'Do not drink the water, and do not cook or brush your teeth with it. Use bottled water.',
      'Do not touch the pump or its wires while they are wet. Have the power looked at by an electrician first.',
      'Do not climb into the pit. The air in it can kill, and its walls can fall in.',
      'Tell the outfit. The well must be looked at, cleaned, and tested before you drink from it again.',
    ],
  },
  {
    key: 'runs-dry',
    title: 'The well runs dry, or the flow is weak',
    steps: [
      'Switch the pump off. A pump that runs dry breaks.',
      'Use no water for some hours, then try again.',
      'Write down the day and what you saw. Add a reading of the meter if you can.',
      'Tell the outfit. It may be the season, the pump, or the well. A test tells which.',
      'When water comes back cloudy, let it run outside until it is clear. Do not drink it before it was tested.',
    ],
  },
  {
    key: 'tastes-odd',
    title: 'The water tastes, smells or looks different',
    steps: [
      'Do not drink it until you know why. Use bottled water for babies, for sick people, and for cooking.',
      'Boiling does not help against metals, nitrate, fuel or salt. It makes some of them stronger.',
      'If it smells of fuel or gas: open the windows, use no flame, leave the house, and call for help.',
      'Tell the outfit what changed and when. The water needs a test.',
    ],
  },
  {
    key: 'unused',
    title: 'The house will stand empty, or stood empty',
    steps: [
      'Before you leave for the cold months, ask the outfit about draining pipes and pump.',
      'When you come back, let each cold tap run for some minutes. Do not drink this water.',
      'After a month or more without use, have the water tested before you drink it.',
    ],
  },
  {
    key: 'ill',
    title: 'Somebody may be ill from the water',
    steps: [
      'Stop drinking it, all of you. Use bottled water.',
      'Call a doctor, and say that you drink from your own well.',
      'A baby that turns blue or grey round the mouth needs help at once: call the emergency number.',
      'Tell the outfit. The water needs a test the same day if it can be had.',
    ],
  },
]

/** Beside all of it. */
export const OWNER_CAUTION =
  'Never open the well or go down to it yourself. Work on wells and their power needs trained people, and local rules come first.'
