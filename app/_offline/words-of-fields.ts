/** What the fields of the forms are called in the list of unsent records; a field without a row is called by its name. */
const WORDS: Readonly<Record<string, string>> = {
  date: 'Day',
  time: 'Time',
  by: 'Done by',
  stopOutcome: 'How the stop ended',
  stopSaid: 'What was tried, left, or in the way',
  stopOther: 'Anything else to follow',
  otherWork: 'Other work',
  staticLevel: 'Water level at rest',
  pumpingLevel: 'Water level while pumping',
  pumpedMinutes: 'Pumped for',
  sampleResults: 'Results as on the sheet',
  recoveryReadings: 'Readings of the recovery',
  drawdownReadings: 'Readings of the drawdown',
  stepReadings: 'Steps',
  static: 'Level at rest',
  flow: 'Flow',
  sampleDate: 'Taken on',
  sampleTime: 'Taken at',
  receivedDate: 'Received by the laboratory on',
  receivedTime: 'Received at',
  analysedDate: 'Test begun on',
  analysedTime: 'Test begun at',
  receivedTemp: 'Temperature on arrival',
  samplePurpose: 'Why it was taken',
  pointKind: 'Taken from',
  pointDetail: 'Which one',
  chlorinated: 'Chlorine in the water',
  sampler: 'Taken by',
  sampleLab: 'Laboratory',
  sampleId: 'Sample number',
  sampleAsked: 'Ordered, but not on the sheet',
  sampleDecimals: 'How the sheet writes numbers',
}

const HIDDEN = new Set(['visitId', 'stopId', 'stopMadeAt', 'intent', 'rows', 'pasted'])

/** Something that was typed: its field, what it is called, and the text. */
export type Said = { field: string; what: string; text: string }

/** Every field of a form that holds something, as what it is called and what was typed. Nothing typed is left out. */
export function fieldsSaid(typed: Readonly<Record<string, string>>): Said[] {
  return Object.entries(typed)
    .filter(([field, text]) => text.trim() !== '' && !HIDDEN.has(field))
    .map(([field, text]) => {
      if (field.startsWith('duty:')) return { field, what: 'Done', text: plain(field.slice('duty:'.length)) }
      if (field.startsWith('step:'))
        return { field, what: 'To follow', text: plain(field.slice('step:'.length)) }
      if (field === 'stopOutcome') return { field, what: WORDS[field] ?? field, text: plain(text) }
      if (field.startsWith('row:'))
        return { field, what: 'Answer about a row of the sheet', text: text === 'open' ? 'Left open' : text }
      if (field.startsWith('answer:')) return { field, what: `Answer about ${plain(field.slice(7))}`, text }
      return { field, what: WORDS[field] ?? plain(field), text }
    })
}

/** "change-sediment-cartridge" and "hourMeter" as "Change sediment cartridge" and "Hour meter". */
function plain(name: string): string {
  const words = name
    .replace(/[-_:]/g, ' ')
    .replace(/([a-z])([A-Z0-9])/g, '$1 $2')
    .toLowerCase()
  return words.charAt(0).toUpperCase() + words.slice(1)
}
