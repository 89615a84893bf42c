/**
 * `npm run password -- EMAIL`: gives somebody a new password, which it prints, and lets them in again if they
 * were shut out. For when the last installer forgot theirs: whoever holds the data folder may do this.
 */
import { OUTFIT } from '../access/viewer'
import { now } from '../clock'
import { listPeople, resetPassword, setDisabled } from '../records/accounts'
import { getDb } from '../records/open'
import { drawPassword } from '../records/passwords'

const email = process.argv[2]?.trim().toLowerCase()
if (!email) {
  console.error('Name the email address of the account: npm run password -- name@example.com')
  process.exit(2)
}

const db = await getDb()
try {
  const person = (await listPeople(db, OUTFIT)).find((one) => one.email === email)
  if (!person) {
    console.error(`There is no account with the email address ${email}.`)
    process.exitCode = 1
  } else {
    const password = drawPassword()
    await resetPassword(db, OUTFIT, person.id, password, now())
    if (person.disabled) await setDisabled(db, OUTFIT, person.id, false, now())
    console.log(`${person.name} (${person.role}) signs in with ${email} and the password\n\n  ${password}\n`)
  }
} finally {
  await db.close()
}
