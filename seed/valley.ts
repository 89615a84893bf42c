/**
 * The made-up Sorrel valley: who has wells there, and where. Everything here is invented.
 * `story` names what happens to a well beyond the ordinary; ./story.ts tells it.
 */
export type Story =
  | 'clogging'
  | 'clogging-then-rehabilitated'
  | 'falling-table'
  | 'tired-pump'
  | 'flow-only'
  | 'unit-slip'
  | 'flood-positive'
  | 'open-bacteria'
  | 'open-nitrate'
  | 'late-sample'
  | 'never-tested'
  | 'lapsed-owner'
  | 'cannot-be-found'
  | 'meter-replaced'
  | 'meter-rolled-over'
  | 'misread-meter'
  | 'corrected-line'
  | 'weak-valve'

export type Place = {
  area: string
  owner: string
  phone: string
  wells: readonly string[]
  /** Snow or flood keeps people out, MM-DD to MM-DD. */
  closed?: { from: string; to: string; why: string }
  solar: boolean
  uv?: boolean
  stories?: Readonly<Record<string, Story>>
}

const SNOW = { from: '11-15', to: '04-20', why: 'snow on the track' }
const FLOOD_MEADOW = { from: '03-01', to: '04-30', why: 'meadow under water' }

export const VALLEY: readonly Place[] = [
  {
    area: 'Orchard Bench',
    owner: 'Tamsin and Olo Brandvold',
    phone: '555-0101',
    wells: ['Quince Row', 'Pear Block North', 'Pear Block South', 'Cider House', 'Nursery Rows'],
    solar: true,
    stories: { 'Pear Block South': 'falling-table', 'Cider House': 'meter-replaced' },
  },
  {
    area: 'Orchard Bench',
    owner: 'Haldane Orchards',
    phone: '555-0102',
    wells: ['Lower Bench 1', 'Lower Bench 2', 'Lower Bench 3', 'Packing Shed'],
    solar: false,
    stories: { 'Lower Bench 2': 'tired-pump' },
  },
  {
    area: 'Campground Flats',
    owner: 'Sorrel Valley Campground',
    phone: '555-0103',
    wells: ['Camp Loop A', 'Camp Loop B', 'Camp Kitchen', 'Warden House', 'Boat Ramp'],
    closed: FLOOD_MEADOW,
    solar: true,
    uv: true,
    stories: { 'Camp Loop B': 'flood-positive', 'Camp Kitchen': 'flood-positive' },
  },
  {
    area: 'Mill Reach',
    owner: 'Sorrel Village School',
    phone: '555-0104',
    wells: ['School Yard', 'School Garden'],
    solar: false,
    uv: true,
  },
  {
    area: 'Red Clay Lane',
    owner: 'Ironside Goat Dairy',
    phone: '555-0105',
    wells: ['Iron Spring 1', 'Iron Spring 2', 'Milking Parlour', 'Kid Barn'],
    solar: true,
    uv: true,
    stories: { 'Iron Spring 1': 'clogging', 'Iron Spring 2': 'clogging-then-rehabilitated' },
  },
  {
    area: 'Red Clay Lane',
    owner: 'Whitlow Dairy Goats',
    phone: '555-0106',
    wells: ['Upper Paddock', 'Lower Paddock', 'Cheese Room'],
    solar: true,
    stories: { 'Lower Paddock': 'meter-rolled-over' },
  },
  {
    area: 'Snow Line',
    owner: 'Larch Cabin Association',
    phone: '555-0107',
    wells: ['Larch 1', 'Larch 2', 'Larch 3', 'Larch 4', 'Larch 5', 'Larch 6', 'Larch 7'],
    closed: SNOW,
    solar: true,
    stories: { 'Larch 5': 'cannot-be-found' },
  },
  {
    area: 'Snow Line',
    owner: 'Ferdy Okonjo',
    phone: '555-0108',
    wells: ['High Saddle'],
    closed: SNOW,
    solar: true,
    stories: { 'High Saddle': 'lapsed-owner' },
  },
  {
    area: 'Snow Line',
    owner: 'Petra Vandermolen',
    phone: '555-0109',
    wells: ['Ridge Hut'],
    closed: SNOW,
    solar: true,
    stories: { 'Ridge Hut': 'flow-only' },
  },
  {
    area: 'Mill Reach',
    owner: 'Sorrel Plant Nursery',
    phone: '555-0110',
    wells: ['Glasshouse 1', 'Glasshouse 2', 'Potting Shed', 'Shade House'],
    solar: false,
    stories: { 'Potting Shed': 'misread-meter' },
  },
  {
    area: 'Mill Reach',
    owner: 'Alder and Wren Pascoe',
    phone: '555-0111',
    wells: ['Mill Cottage'],
    solar: true,
  },
  {
    area: 'Mill Reach',
    owner: 'Ines Caldeira',
    phone: '555-0112',
    wells: ['Weir House'],
    solar: true,
    stories: { 'Weir House': 'open-bacteria' },
  },
  { area: 'Mill Reach', owner: 'Bram Oosterhuis', phone: '555-0113', wells: ['Ferry Lane 2'], solar: true },
  {
    area: 'Mill Reach',
    owner: 'Sunniva Lindqvist',
    phone: '555-0114',
    wells: ['Ferry Lane 7'],
    solar: false,
  },
  {
    area: 'Mill Reach',
    owner: 'Otis Greenhalgh',
    phone: '555-0115',
    wells: ['Old Forge'],
    solar: true,
    stories: { 'Old Forge': 'corrected-line' },
  },
  {
    area: 'Dairy Road',
    owner: 'Kestrel Farm',
    phone: '555-0116',
    wells: ['Kestrel House', 'Kestrel Trough'],
    solar: true,
    stories: { 'Kestrel House': 'open-nitrate' },
  },
  {
    area: 'Dairy Road',
    owner: 'Marguerite Achterberg',
    phone: '555-0117',
    wells: ['Dairy Road 11'],
    solar: true,
  },
  {
    area: 'Dairy Road',
    owner: 'Dunmore Goats',
    phone: '555-0118',
    wells: ['Dunmore Barn', 'Dunmore House'],
    solar: true,
  },
  { area: 'Dairy Road', owner: 'Jory Penhallow', phone: '555-0119', wells: ['Dairy Road 19'], solar: false },
  {
    area: 'Dairy Road',
    owner: 'Asha Venkataraman',
    phone: '555-0120',
    wells: ['Dairy Road 24'],
    solar: true,
    stories: { 'Dairy Road 24': 'late-sample' },
  },
  {
    area: 'Upper Sorrel',
    owner: 'Nils Tollefsen',
    phone: '555-0121',
    wells: ['Tollefsen House', 'Tollefsen Sauna'],
    solar: true,
    stories: { 'Tollefsen Sauna': 'never-tested' },
  },
  {
    area: 'Upper Sorrel',
    owner: 'Quiet Water Retreat',
    phone: '555-0122',
    wells: ['Retreat Main', 'Retreat Hill'],
    solar: true,
    uv: true,
  },
  { area: 'Upper Sorrel', owner: 'Rosalind Mabe', phone: '555-0123', wells: ['Mabe Meadow'], solar: true },
  { area: 'Upper Sorrel', owner: 'Lev Abramowicz', phone: '555-0124', wells: ['Sorrel Head'], solar: true },
  {
    area: 'Upper Sorrel',
    owner: 'Corrie and Dag Holmquist',
    phone: '555-0125',
    wells: ['Holmquist'],
    solar: false,
  },
  {
    area: 'Upper Sorrel',
    owner: 'Pilar Etxeberria',
    phone: '555-0126',
    wells: ['Stone Bridge'],
    solar: true,
    stories: { 'Stone Bridge': 'unit-slip' },
  },
  {
    area: 'Orchard Bench',
    owner: 'Winifred Sallow',
    phone: '555-0127',
    wells: ['Sallow Plums', 'Sallow House'],
    solar: true,
  },
  {
    area: 'Orchard Bench',
    owner: 'Gus Tamarack',
    phone: '555-0128',
    wells: ['Tamarack Cherries'],
    solar: true,
  },
  { area: 'Red Clay Lane', owner: 'Odile Fontenay', phone: '555-0129', wells: ['Red Clay 3'], solar: true },
  { area: 'Red Clay Lane', owner: 'Milo Stannard', phone: '555-0130', wells: ['Red Clay 8'], solar: true },
  {
    area: 'Campground Flats',
    owner: 'Perpetua Ngata',
    phone: '555-0131',
    wells: ['River Gate'],
    closed: FLOOD_MEADOW,
    solar: true,
  },
  {
    area: 'Campground Flats',
    owner: 'Silas Underhill',
    phone: '555-0132',
    wells: ['Underhill'],
    solar: true,
  },
  {
    area: 'Dairy Road',
    owner: 'Sorrel Grange Hall',
    phone: '555-0133',
    wells: ['Grange Hall'],
    solar: false,
    stories: { 'Grange Hall': 'weak-valve' },
  },
]
