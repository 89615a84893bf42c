import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { simpleParser } from 'mailparser'
import type { Browser, CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite } from './harness'

let browser: Browser
let site: Site
beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo')
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

const personOf = (role: string) => {
  const person = site.people.find((one) => one.role === role)
  if (!person) throw new Error(`the demo has no ${role}`)
  return person
}

/** A device with a screen lock, as the debugger of the browser plays one. */
async function withDevice(page: Page): Promise<CDPSession> {
  const device = await page.context().newCDPSession(page)
  await device.send('WebAuthn.enable')
  await device.send('WebAuthn.addVirtualAuthenticator', {
    options: {
      protocol: 'ctap2',
      transport: 'internal',
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  })
  return device
}

test('a passkey is added, signs in, is renamed and removed, and signs in no more', async () => {
  const { page, context, complaints } = await openPage(browser)
  await withDevice(page)
  await signIn(page, site, 'owner')
  await page.goto(`${site.url}/account`)
  await page.fill('#passkey-name', 'Kitchen phone')
  await page.getByRole('button', { name: 'Add a passkey' }).click()
  await page.getByText('Added. You can sign in with it').waitFor()
  await page.getByText('Kitchen phone').first().waitFor()
  await expectAccessible(page)

  await page.getByRole('button', { name: 'Sign out', exact: true }).click()
  await page.waitForURL(/\/sign-in/)
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Sign in with a passkey' }).click()
  await page.waitForURL(/\/own$/)

  await page.goto(`${site.url}/account`)
  await page.getByText('Rename Kitchen phone').click()
  await page.locator('details[open] [name=name]').fill('Old phone')
  await page.getByRole('button', { name: 'Rename', exact: true }).click()
  await page.getByText('Old phone').first().waitFor()
  await page.getByRole('button', { name: 'Remove Old phone' }).click()
  await page.getByText('Old phone').first().waitFor({ state: 'detached' })
  await page.getByRole('button', { name: 'Sign out', exact: true }).click()
  await page.waitForURL(/\/sign-in/)
  await page.getByRole('button', { name: 'Sign in with a passkey' }).click()
  await page.getByText('not known here any more').waitFor()
  expect(complaints).toEqual([])
  await context.close()
})

/** The links of every mail that lies in the outbox, by who they are for. */
async function linksMailedTo(address: string): Promise<string[]> {
  const folder = join(dirname(site.file), 'outbox')
  const mails = await Promise.all(
    readdirSync(folder)
      .filter((name) => name.endsWith('.eml'))
      .map((name) => simpleParser(readFileSync(join(folder, name)))),
  )
  return mails
    .filter((mail) => [mail.to].flat().some((to) => to?.text === address))
    .map((mail) => /https?:\S+/.exec(mail.text ?? '')?.[0] ?? '')
}

test('a forgotten password is set anew by mail, once, and the answer tells nobody who has an account', async () => {
  const owner = personOf('owner')
  const { page, context } = await openPage(browser)
  const said: string[] = []
  for (const email of ['nobody@elsewhere.example', owner.email]) {
    await page.goto(`${site.url}/forgot`)
    await page.fill('[name=email]', email)
    await page.getByRole('button', { name: 'Send me a link' }).click()
    await page.getByText('a link is on its way').waitFor()
    said.push((await page.locator('main').innerText()).replaceAll(email, 'X'))
  }
  expect(said[0]).toBe(said[1])
  await expectAccessible(page)
  await expect.poll(() => linksMailedTo(owner.email).catch(() => [])).toHaveLength(1)
  expect(await linksMailedTo('nobody@elsewhere.example')).toEqual([])
  const [link = ''] = await linksMailedTo(owner.email)
  expect(link.startsWith(`${site.url}/reset?code=`)).toBe(true)
  await page.goto(link)
  await expectAccessible(page)
  await page.fill('[name=password]', 'Wellwater2026')
  await page.getByRole('button', { name: 'Set the new password' }).click()
  await page.waitForSelector('.error-summary')
  expect(await page.inputValue('[name=code]')).not.toBe('')
  await page.fill('[name=password]', 'a heron on the fence')
  await page.getByRole('button', { name: 'Set the new password' }).click()
  await page.getByText('The new password holds').waitFor()
  owner.password = 'a heron on the fence'
  await signIn(page, site, 'owner')
  await page.goto(link)
  await page.fill('[name=password]', 'another heron again')
  await page.getByRole('button', { name: 'Set the new password' }).click()
  await page.waitForSelector('.error-summary')
  expect(await page.locator('.error-summary').innerText()).toContain('No card or link')
  await context.close()
})

test('a card made by the installer sets a new password too, and works without script', async () => {
  const desk = await openPage(browser, { width: 1280 })
  await signIn(desk.page, site, 'installer')
  await desk.page.goto(`${site.url}/settings`)
  await desk.page.getByText('Card for a new password for Joss').click()
  await desk.page.locator('details[open]').getByRole('button', { name: 'Make the card' }).click()
  const code = await desk.page.locator('.code-large').innerText()
  await expectAccessible(desk.page)
  const { page, context } = await openPage(browser, { script: false })
  await page.goto(`${site.url}/reset`)
  await page.fill('[name=code]', code.toLowerCase())
  await page.fill('[name=password]', 'two planks and a rope')
  await page.locator('main button[type=submit]').click()
  await page.waitForURL(/\/sign-in/)
  personOf('technician').password = 'two planks and a rope'
  await signIn(page, site, 'technician')
  await context.close()
  await desk.context.close()
})

test('an owner on two households sees the wells of both; a revoked session sees nothing at its next step', async () => {
  const desk = await openPage(browser, { width: 1280 })
  await signIn(desk.page, site, 'installer')
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'owner')
  await page.locator('main h2 a').first().waitFor()
  const before = await page.locator('main h2 a').count()
  await desk.page.goto(`${site.url}/households`)
  const rows = desk.page
    .locator('tbody tr')
    .filter({ hasText: 'nobody yet' })
    .filter({ hasNotText: /^\S+ \S+\t0/ })
  await rows.first().locator('a').click()
  await desk.page.waitForURL(/\/households\/./)
  const household = desk.page.url()
  await desk.page.fill('[name=forName]', 'Ferdy')
  await desk.page.fill('[name=email]', 'second@sorrel.example')
  await desk.page.getByRole('button', { name: 'Make the card' }).click()
  const code = await desk.page.locator('.code-large').innerText()
  await expect.poll(() => linksMailedTo('second@sorrel.example')).toEqual([`${site.url}/join?code=${code}`])

  await page.goto(`${site.url}/account`)
  await page.getByRole('link', { name: 'Type its code' }).click()
  await page.waitForURL(/\/join/)
  await expectAccessible(page)
  await page.fill('[name=code]', code)
  await page.getByRole('button', { name: 'Add the wells to my account' }).click()
  await page.waitForURL(/\/own$/)
  await page.locator('main h2 a').nth(before).waitFor()

  await desk.page.goto(household)
  await desk.page.getByRole('button', { name: /^Take out of this household/ }).click()
  await desk.page.getByText('Nobody yet').waitFor()
  await page.reload()
  await page.locator('main h2 a').first().waitFor()
  expect(await page.locator('main h2 a').count()).toBe(before)

  const other = await openPage(browser)
  await signIn(other.page, site, 'owner')
  await other.page.goto(`${site.url}/account`)
  await other.page.getByRole('button', { name: 'Sign out everywhere' }).click()
  await other.page.waitForURL(/\/sign-in/)
  for (const path of ['/own', '/account', '/'])
    expect(
      (await page.request.get(`${site.url}${path}`, { maxRedirects: 0 })).headers().location,
      path,
    ).toContain('/sign-in')
  for (const each of [context, other.context, desk.context]) await each.close()
})

test('a sold well leaves its household at once, and what was granted is read and printed', async () => {
  const desk = await openPage(browser, { width: 1280 })
  await signIn(desk.page, site, 'installer')
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'owner')
  const first = page.locator('main h2 a').first()
  const id = (await first.getAttribute('href'))?.split('/')[2] ?? ''
  await desk.page.goto(`${site.url}/wells/${id}/edit`)
  await desk.page.getByRole('link', { name: 'The property is sold' }).click()
  await desk.page.waitForURL(/\/sale/)
  await expectAccessible(desk.page)
  await desk.page.getByRole('button', { name: 'Hand the well over' }).click()
  await desk.page.waitForSelector('.error-summary')
  await desk.page.fill('[name=ownerName]', 'Hollis Newcomer')
  await desk.page.getByLabel('The logbook up to the day of the sale').check()
  await desk.page.getByRole('button', { name: 'Hand the well over' }).click()
  await desk.page.getByText('The well is handed over').waitFor()
  await expectAccessible(desk.page)
  expect((await page.request.get(`${site.url}/own/${id}`)).status()).toBe(404)
  await page.goto(`${site.url}/own`)
  await page.locator('section[aria-labelledby=past] a').click()
  await page.waitForURL(/\/own\/past\//)
  await expectAccessible(page)
  expect(await page.locator('main').innerText()).not.toContain('Hollis')
  await desk.page.getByRole('button', { name: /^Take back/ }).click()
  await desk.page.getByText('Who of before may still read').waitFor({ state: 'detached' })
  expect((await page.request.get(page.url())).status()).toBe(404)

  await desk.page.getByRole('link', { name: 'Invite Hollis Newcomer' }).click()
  await desk.page.waitForURL(/\/households\/./)
  await desk.page.getByRole('link', { name: 'Forget a person or the household' }).click()
  await desk.page.waitForURL(/\/forget/)
  await expectAccessible(desk.page)
  await desk.page.getByLabel('The whole household Hollis Newcomer').check()
  await desk.page.getByRole('button', { name: 'Forget them' }).click()
  await desk.page.waitForSelector('.error-summary')
  await desk.page.getByLabel('Yes. This cannot be undone').check()
  await desk.page.getByRole('button', { name: 'Forget them' }).click()
  await desk.page.waitForURL(/\/households\/[0-9a-f-]+$/)
  expect(await desk.page.locator('h1').innerText()).toMatch(/^Former owner /)
  for (const each of [context, desk.context]) await each.close()
})

test('what new wells and reminders begin with is chosen, refused filled in, and kept', async () => {
  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/settings/defaults`)
  await expectAccessible(page)
  await page.getByLabel('Bacteria sample', { exact: true }).check()
  await page.fill('[name=closedFrom]', '15 Nov')
  await page.getByRole('button', { name: 'Save' }).first().click()
  await page.waitForSelector('.error-summary')
  expect(await page.getByLabel('Bacteria sample', { exact: true }).isChecked()).toBe(true)
  await page.fill('[name=closedTo]', '31 Mar')
  await page.getByRole('button', { name: 'Save' }).first().click()
  await page.getByText('It holds for wells and accounts made from now on').waitFor()
  await page.goto(`${site.url}/wells/new`)
  expect(await page.inputValue('[name=closedTo]')).toBe('03-31')
  expect(complaints).toEqual([])
  await context.close()
})
