/** How to take samples so that the result is about the well, and not about the tap or the hands. Common practice, no published source. */
import type { SampledGroup } from '../sampling'

/** Before and after every sample. */
export const TAKING_ALWAYS: readonly string[] = [
  'Fetch the bottles from the laboratory that will test them, and ask until when it takes them in.',
  'Choose a cold tap close to the well, before any filter or softener, unless the water as it is drunk is the question.',
  'Wash your hands. Write well, tap, day, time and name on each bottle before it is wet.',
  'Put the bottles on ice in a cooler at once, with the sheet in a dry bag, and take them there the same day.',
]

/** What each group needs beside that. */
export const TAKING: Readonly<Record<SampledGroup, readonly string[]>> = {
  bacteria: [
    'Take off the strainer and hose; wipe or flame the spout; let the cold water run five minutes.',
    'Open the sterile bottle last. Touch neither its rim nor the inside of its cap, and do not rinse it: the powder in it belongs there.',
    'Fill to the line, leave the air on top, close it at once.',
    'If the well was chlorinated, test first that no chlorine is left.',
  ],
  nitrate: [
    'Let the water run until it is cold. Fill to the shoulder. Keep the acid in the bottle if there is any.',
  ],
  general: [
    'Fill to the brim without air for pH and alkalinity; measure pH and temperature at the tap if you can.',
  ],
  metals: [
    'For lead and copper: first draw, after six hours in which nobody ran water; write down which tap.',
    'For all others: let the water run first. The bottle holds acid: do not rinse it, do not touch it.',
  ],
  'radio-and-organics': [
    'Fill the small vials under a thin stream until the water stands above the rim; cap without a bubble.',
    'No fuel, glue or spray near the bottles; gloves without powder.',
  ],
}
