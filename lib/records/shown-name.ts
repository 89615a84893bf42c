/** A file's name as it is shown: the last part of a path, without control characters; never used as a path. */
export function shownName(fileName: string): string {
  const last = fileName.split(/[\\/]/).at(-1) ?? ''
  return last.replace(/\p{C}/gu, '').trim().slice(0, 200) || 'file'
}
