import { readFileSync, writeFileSync } from 'node:fs'
import { FROM, securityTables, TO } from './tables'

/** Writes the tables of DEVELOPERS.md anew from the code: node lib/cli/run.mjs tests/security/write-tables.ts */
const text = readFileSync('DEVELOPERS.md', 'utf8')
const [from, to] = [text.indexOf(FROM), text.indexOf(TO)]
if (from < 0 || to < from) throw new Error('DEVELOPERS.md has no place for the tables')
writeFileSync('DEVELOPERS.md', text.slice(0, from) + securityTables() + text.slice(to + TO.length))
