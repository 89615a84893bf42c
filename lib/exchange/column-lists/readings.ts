import {
  BORE,
  BY,
  type Column,
  DATE,
  DEPTH_M_MAX,
  LENGTH,
  measured,
  PRESSURE,
  TIME,
  text,
  WELL,
} from './column'

/** A visit: work, readings and events of one day. */
export const VISITS: Column[] = [
  { ...WELL },
  DATE,
  TIME,
  BY,
  text('done', 'Duties done', 4000, /^(?:done|work done|service done|tasks?|work|service performed)$/),
  measured(
    'static_level',
    'Level at rest',
    LENGTH,
    /^(?:static|rest|standing|resting)(?: water)?(?: level| depth)?$|^(?:swl|(?:static )?water level|depth to water.*)$/,
    { min: -100, most: DEPTH_M_MAX },
  ),
  measured(
    'pumping_level',
    'Level while pumping',
    LENGTH,
    /^(?:pumping|dynamic)(?: water)?(?: level| depth)?$|^pwl$/,
    { min: -100, most: DEPTH_M_MAX },
  ),
  measured(
    'flow',
    'Flow',
    { us: 'gal/min', metric: 'L/min' },
    /^(?:flow|yield|discharge|pump(?:ing)? rate)(?: rate)?$/,
    { most: 10 },
  ),
  {
    name: 'pumped',
    title: 'Pumped for',
    reads: 'quantity',
    dimension: 'duration',
    units: { us: 'min', metric: 'min' },
    words: /^(?:pumped|pumping time|run time)$/,
  },
  {
    name: 'hour_meter',
    title: 'Hour meter',
    reads: 'quantity',
    dimension: 'duration',
    units: { us: 'h', metric: 'h' },
    words: /^(?:hour ?meter|(?:run|pump|engine) hours|hours)(?: reading)?$/,
  },
  measured(
    'volume_meter',
    'Volume meter',
    { us: 'gal', metric: 'm3' },
    /^(?:volume|water|flow|totali[sz]er) ?(?:meter)?(?: reading)?$/,
  ),
  measured(
    'pressure_in',
    'Pressure before the filter',
    PRESSURE,
    /^(?:pressure (?:in|before)|(?:inlet|upstream) pressure)$/,
    { min: -101_325, most: 1e8 },
  ),
  measured(
    'pressure_out',
    'Pressure after the filter',
    PRESSURE,
    /^(?:pressure (?:out|after)|(?:outlet|downstream) pressure)$/,
    { min: -101_325, most: 1e8 },
  ),
  measured('brush_length', 'Brush length', BORE, /^brush(?:es)?(?: length)?$/, { most: 1 }),
  {
    name: 'amps',
    title: 'Current',
    reads: 'quantity',
    dimension: 'current',
    plainUnit: 'A',
    words: /^(?:amps?|current|amperes)$/,
  },
  {
    name: 'volts',
    title: 'Voltage',
    reads: 'quantity',
    dimension: 'voltage',
    plainUnit: 'V',
    words: /^(?:volts?|voltage)$/,
  },
  text('event', 'Event', 200, /^events?$/),
  text('note', 'Note', 4000, /^(?:notes?|comments?|remarks?|memo|observations?)$/),
]

/** A reading of a recovery test. */
export const RECOVERY: Column[] = [
  { ...WELL },
  DATE,
  { ...TIME },
  BY,
  {
    ...measured(
      'elapsed',
      'Time since the pump stopped',
      { us: 'min', metric: 'min' },
      /^(?:elapsed|time)(?: time)?(?: since.*)?$/,
    ),
    needed: true,
  },
  {
    ...measured('level', 'Level', LENGTH, /^(?:water )?level$|^depth to water.*$/, {
      min: -100,
      most: DEPTH_M_MAX,
    }),
    needed: true,
  },
  measured('static_level', 'Level at rest', LENGTH, /^(?:static|rest)(?: water)?(?: level)?$|^swl$/, {
    min: -100,
    most: DEPTH_M_MAX,
  }),
]
