declare global {
  // The proxy and the pages are loaded apart from each other; the process must still agree on one host.
  var wellroundTiles: string | undefined
}

/** Lets pages load pictures from the host of this address and from no other; null for none. */
export function allowTiles(url: string | null): void {
  globalThis.wellroundTiles = url === null || !URL.canParse(url) ? undefined : new URL(url).origin
}

/** " https://tiles.example" for a content policy, or '' while no host is allowed. */
export function tileSource(): string {
  return globalThis.wellroundTiles ? ` ${globalThis.wellroundTiles}` : ''
}
