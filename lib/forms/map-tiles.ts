import { z } from 'zod'

/** Hosts of this machine or its own network, where a map server may do without https. */
const LOCAL =
  /^(localhost|127\.\d+\.\d+\.\d+|\[::1\]|10\.\d+\.\d+\.\d+|192\.168\.\d+\.\d+|172\.(1[6-9]|2\d|3[01])\.\d+\.\d+|[a-z0-9-]+\.(local|lan|home\.arpa))$/i

/** The map's ground: blank for none. */
export const mapTilesForm = z
  .object({
    url: z
      .string()
      .trim()
      .max(500, 'The address must be 500 characters or fewer')
      .superRefine((text, context) => {
        const wrong = text === '' ? null : wrongWith(text)
        if (wrong) context.addIssue({ code: 'custom', message: wrong })
      }),
    attribution: z
      .string()
      .trim()
      .max(200, 'The words must be 200 characters or fewer')
      .regex(/^[^<>]*$/, 'Write the words alone, without < and >'),
  })
  .superRefine(({ url, attribution }, context) => {
    if (url !== '' && attribution === '')
      context.addIssue({
        code: 'custom',
        path: ['attribution'],
        message: 'Whose map is it? Enter what its owner asks to have written beside it',
      })
  })

/** One sentence, or null for an address of tiles. */
function wrongWith(text: string): string | null {
  const example = 'like https://tiles.example/{z}/{x}/{y}.png'
  if (!['{z}', '{x}', '{y}'].every((part) => text.includes(part)))
    return `The address must hold {z}, {x} and {y}, ${example}`
  if (!URL.canParse(text)) return `The address must be whole, ${example}`
  const { protocol, hostname, username, password } = new URL(text)
  if (username !== '' || password !== '') return 'The address must hold no name or password'
  if (/[{}%]/.test(hostname) || hostname.includes('*')) return `The address must name one host, ${example}`
  if (protocol === 'https:' || (protocol === 'http:' && LOCAL.test(hostname))) return null
  return 'The address must begin with https, unless the server stands in your own network'
}
