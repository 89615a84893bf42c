/**
 * Makes lib/forms/common-passwords.bin anew: node lib/cli/password-list.mjs PASSWORDS.json
 *
 * PASSWORDS.json is `src/passwords.json` of the package @zxcvbn-ts/language-common (MIT License, Copyright (c) 2012-2016 Dan Wheeler
 * and Dropbox, Inc., Copyright (c) 2021 zxcvbn-ts), a list of the most frequent passwords of published leaks. The file made here holds, sorted, the first five bytes of
 * the SHA-256 of each that has six characters or more: what is on the list can be looked up in it, and not read out of it.
 */
import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'

const BYTES = 5
const SHORTEST = 6

const [source] = process.argv.slice(2)
if (!source) throw new Error('Name the file with the list')
const listed = JSON.parse(readFileSync(source, 'utf8')).map((password) => password.toLowerCase())
const marks = listed
  .filter((password) => password.length >= SHORTEST)
  .map((password) =>
    createHash('sha256')
      .update(password)
      .digest('hex')
      .slice(0, 2 * BYTES),
  )
const sorted = [...new Set(marks)].sort()
writeFileSync('lib/forms/common-passwords.bin', Buffer.from(sorted.join(''), 'hex'))
console.log(`${listed.length} passwords read, ${sorted.length} kept`)
