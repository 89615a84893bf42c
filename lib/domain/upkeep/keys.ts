/** What a name of plain Latin letters gives, and gives again. */
const IS_KEY = /^[a-z0-9]+(?:-[a-z0-9]+)*$/

/**
 * The key of a duty, made from its name: "Change sediment cartridge" becomes 'change-sediment-cartridge'.
 *
 * Answer  letters and digits of any alphabet in lower case, accents dropped, everything else one hyphen. Two
 *         spellings that differ only in case, accents, spaces or punctuation give one key.
 * Throws  RangeError on a name without a single letter or digit: forms refuse those.
 */
export function slug(name: string): string {
  // A key is its own key: entries name duties by them, and every reckoning reads them all.
  if (IS_KEY.test(name)) return name
  const key = name
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
  if (key === '') throw new RangeError(`"${name}" has no letter or digit to make a key of`)
  return key
}
