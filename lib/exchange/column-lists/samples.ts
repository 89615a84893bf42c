import { BY, type Column, DATE, TIME, text, WELL } from './column'

/** A result of a lab sheet. */
export const SAMPLES: Column[] = [
  { ...WELL },
  {
    name: 'sampled_at',
    title: 'Sampled at',
    reads: 'day-time',
    needed: true,
    words:
      /^(?:sampled?|collected|collection|activity start)(?: at| on)?(?: date| dt| time)*$|^(?:date|sample ?(?:date|dt))$/,
  },
  {
    name: 'received_at',
    title: 'Received by the laboratory',
    reads: 'day-time',
    words: /^received(?: at| on)?(?: date)?$/,
  },
  text('lab', 'Laboratory', 200, /^lab(?:oratory)?(?: name)?$/),
  text('sample_id', 'Sample number', 120, /^(?:lab |sample )(?:id|no|number)$|^activity ?identifier$/),
  text('point', 'Where it was taken', 200, /^(?:(?:sampling )?point|tap|where|taken at)$/),
  {
    ...text(
      'analyte',
      'Analyte',
      200,
      /^(?:analyte|parameter|test|characteristic(?: ?name)?|parm.*|constituent)$/,
    ),
    needed: true,
  },
  text('result', 'Result', 120, /^(?:result|value|concentration|result ?va|result ?measure ?value)$/),
  text('qualifier', 'Mark beside the result', 40, /^(?:qualifier|flag|remark ?cd|remark code|qual)$/),
  text(
    'detection',
    'Words in place of a result',
    120,
    /^(?:detection|result ?detection ?condition ?text|detection condition)$/,
  ),
  text('unit', 'Unit', 60, /^units?$|^unit ?cd$|^result ?measure ?measure ?unit ?code$|^result unit$/),
  text(
    'reporting_limit',
    'Reporting limit',
    60,
    /^(?:reporting limit|rl|mrl|rpt ?lev(?: va)?|detection limit|pql|loq|detection ?quantitation ?limit ?measure ?measure ?value)$/,
  ),
  text('method', 'Method', 120, /^(?:analytical )?method$/),
  BY,
]

/** Lines for which the other files have no columns. */
export const ENTRIES: Column[] = [
  { ...WELL },
  DATE,
  TIME,
  BY,
  { ...text('entry', 'The entry as JSON', 200_000), needed: true },
]
