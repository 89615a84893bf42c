/**
 * Plain words about what was found: what it does, who is at risk, what to do. Effects follow the health-effects language of
 * 40 CFR part 141 subpart Q in our own words (from memory); kept to short sentences so that everyone can read them.
 */

/** 'boil' is for bacteria alone: boiling takes out no substance, and makes nitrate and metals stronger. */
export const NOTICE_KINDS = ['inform', 'boil', 'do-not-drink', 'do-not-use'] as const
export type NoticeKind = (typeof NOTICE_KINDS)[number]

export type CauseWords = { kind: NoticeKind; effects: string; atRisk: string; act: string; doctor: string }

const NEVER_BOIL = 'Do not boil the water: boiling makes it worse.'

const BACTERIA: CauseWords = {
  kind: 'boil',
  effects:
    'Germs from waste may be in the water. They can cause loose bowels, cramps, an upset stomach, fever or headaches.',
  atRisk: 'Babies, young children, old people and people who are weak or ill can get very sick.',
  act: 'Bring water to a full boil for one minute (three minutes above 6,500 feet or 2,000 m). Let it cool. Use boiled or bottled water to drink, cook, brush teeth, make ice, wash food and mix baby milk.',
  doctor: 'See a doctor if loose bowels or fever last more than a day, or at once for a baby.',
}

const NITRATE: CauseWords = {
  kind: 'do-not-drink',
  effects:
    'Nitrate keeps the blood of a baby from taking up air. A baby who drinks it can get very ill and may die without care. Signs are short breath and blue skin.',
  atRisk: 'Babies under six months are most at risk. So are women who are with child or nursing.',
  act: `Do not give the water to babies, and do not mix baby milk with it. Use bottled water to drink and cook. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'Get help at once if a baby has blue skin or short breath.',
}

const LEAD: CauseWords = {
  kind: 'do-not-drink',
  effects:
    'Lead harms the brain, the nerves, the blood and the kidneys. It can slow how a child grows and learns.',
  atRisk: 'Babies, young children and women who are with child are most at risk.',
  act: `Use bottled water to drink, cook and mix baby milk. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'Ask a doctor for a blood test for children and for women who are with child.',
}

const COPPER: CauseWords = {
  kind: 'do-not-drink',
  effects: 'Copper can upset the stomach in a short time. Over years it can harm the liver and the kidneys.',
  atRisk: "Babies, and people with Wilson's disease, are most at risk.",
  act: `Use bottled water to drink, cook and mix baby milk. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'See a doctor if you feel sick after you drink the water.',
}

const ARSENIC: CauseWords = {
  kind: 'do-not-drink',
  effects:
    'Arsenic harms the skin and the blood flow when people drink it for years. It raises the risk of cancer.',
  atRisk: 'All who drink it for years are at risk. Babies and women who are with child should stop first.',
  act: `Use bottled water to drink, cook and mix baby milk. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'Tell your doctor how long you drank the water.',
}

const FLUORIDE: CauseWords = {
  kind: 'do-not-drink',
  effects:
    'Too much fluoride over years makes bones weak and sore. It can stain and pit the teeth of children.',
  atRisk: 'Children under nine are most at risk, as their teeth still form.',
  act: `Use bottled water to drink, cook and mix baby milk. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'Tell your dentist and your doctor about the level.',
}

const MANGANESE: CauseWords = {
  kind: 'do-not-drink',
  effects: 'Too much manganese can harm the nerves and how a young child learns.',
  atRisk: 'Babies are most at risk.',
  act: `Use bottled water to drink, cook and mix baby milk. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'Tell your doctor if a baby drank the water.',
}

const RADIO: CauseWords = {
  kind: 'do-not-drink',
  effects:
    'The water holds more radiation, or more of a metal that gives it off, than the limit. Over years it can harm the kidneys and raise the risk of cancer.',
  atRisk: 'All who drink it for years are at risk.',
  act: `Use bottled water to drink and cook. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'Tell your doctor how long you drank the water.',
}

const SOLVENT: CauseWords = {
  kind: 'do-not-use',
  effects:
    'A solvent or fuel part is in the water. Over time it can harm the liver, the nerves and the blood, and raise the risk of cancer. It gets into the air when the water is warm.',
  atRisk:
    'All who drink it, or breathe its steam, are at risk. Women who are with child should take most care.',
  act: `Do not drink, cook, bathe or shower with the water. Use bottled water. ${NEVER_BOIL} Boiling puts it into the air.`,
  doctor: 'See a doctor if you feel dizzy or sick after you use the water.',
}

const OTHER: CauseWords = {
  kind: 'do-not-drink',
  effects: 'The level is above what is held to be fit to drink. Over time it can harm health.',
  atRisk:
    'Babies, young children and women who are with child should stop first. All others should stop too.',
  act: `Use bottled water to drink, cook and mix baby milk. ${NEVER_BOIL} You may wash in it.`,
  doctor: 'See a doctor if you do not feel well, and tell what was found.',
}

/** The words for a chain, by its key; other substances share plain words by family. */
export const CAUSES: Readonly<Record<string, CauseWords>> = {
  bacteria: BACTERIA,
  nitrate: NITRATE,
  lead: LEAD,
  copper: COPPER,
  arsenic: ARSENIC,
  fluoride: FLUORIDE,
  manganese: MANGANESE,
}

export const FAMILY_CAUSES: Readonly<Record<string, CauseWords>> = { organic: SOLVENT, radionuclide: RADIO }
export const OTHER_CAUSE: CauseWords = OTHER
