import { parseSetCookieHeader, splitSetCookieHeader, toCookieOptions } from 'better-auth/cookies'

/** A cookie for the caller to set: this folder does not know the web framework. */
export type CookieToSet = { name: string; value: string; options: ReturnType<typeof toCookieOptions> }

/** The cookies that the sign-in library wants set, from the headers of its answer. */
export function cookiesOf(headers: Headers): CookieToSet[] {
  return headers
    .getSetCookie()
    .flatMap(splitSetCookieHeader)
    .flatMap((line) => [...parseSetCookieHeader(line)])
    .map(([name, attributes]) => ({ name, value: attributes.value, options: toCookieOptions(attributes) }))
}
