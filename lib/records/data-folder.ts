import { resolve } from 'node:path'

/** The folder that holds everything worth backing up: the database, attached files and the sign-in secret. */
export function dataFolder(): string {
  // The data folder is no part of the program: the bundler must not follow it.
  return resolve(/*turbopackIgnore: true*/ process.env.WELLROUND_DATA ?? 'data')
}

/** The database file within the data folder. */
export function databaseFile(): string {
  return resolve(dataFolder(), 'wellround.db')
}
