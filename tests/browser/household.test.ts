import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openDb } from '@/lib/records/db'
import { quietToken } from '@/lib/records/mail-choice'
import { sendReminders } from '@/lib/remind/send'
import { grade } from '../domain/water/reading-grade'
import { mailServer } from '../setup/mail-server'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite, TODAY } from './harness'

let browser: Browser
let site: Site
let owner: Awaited<ReturnType<typeof openPage>>
let desk: Awaited<ReturnType<typeof openPage>>
/** The address of the first well of the household. */
let own: string
beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo')
  owner = await openPage(browser)
  await signIn(owner.page, site, 'owner')
  await owner.page.goto(`${site.url}/own`)
  own = `${site.url}${await owner.page.locator('main h2 a').first().getAttribute('href')}`
  desk = await openPage(browser)
  await signIn(desk.page, site, 'installer')
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

const words = (page: Page) => page.locator('main').innerText()

test('how full the tank is, in two taps', async () => {
  const { page, complaints } = owner
  await page.goto(own)
  await expectAccessible(page)
  await page.getByRole('link', { name: 'Tank level' }).click()
  await page.waitForURL(/\/tank$/)
  await expectAccessible(page)
  await page.goto(own)
  // From the well's page: one tap, and another.
  await page.getByRole('link', { name: 'Tank level' }).click()
  await page.getByRole('button', { name: 'Half' }).click()
  await page.waitForURL(/saved=yes/)
  expect(await words(page)).toMatch(/Tank on Nov 20, 2026: half full/)
  expect(complaints).toEqual([])
})

test('the same without script', async () => {
  const plain = await openPage(browser, { script: false })
  await signIn(plain.page, site, 'owner')
  await plain.page.goto(`${own}/tank`)
  await plain.page.getByRole('button', { name: 'A quarter' }).click()
  await plain.page.waitForURL(/saved=yes/)
  expect(await words(plain.page)).toMatch(/a quarter full/)
  await plain.context.close()
})

test('a visit is asked for, seen at once, promised, seen, and made', async () => {
  const { page } = owner
  await page.goto(own)
  const name = await page.locator('h1').innerText()
  await page.getByRole('link', { name: 'Ask for a visit' }).click()
  await page.waitForURL(/\/ask$/)
  await page.getByRole('button', { name: 'Ask for a visit' }).click()
  await page.waitForSelector('.error-summary')
  await expectAccessible(page)
  await page.getByLabel('Too little water, or none').check()
  await page.getByLabel('As soon as you can').check()
  await page.fill('[name=words]', 'A trickle since Tuesday')
  await page.fill('[name=phone]', '555 0199')
  await page.getByRole('button', { name: 'Ask for a visit' }).click()
  await page.waitForURL(/saved=asked/)
  expect(await words(page)).toContain('You asked for a visit')

  await desk.page.goto(site.url)
  const asked = desk.page.locator('section[aria-labelledby=asked-for]')
  expect(await asked.innerText()).toMatch(/Urgent[\s\S]*A trickle since Tuesday[\s\S]*555 0199/)
  await expectAccessible(desk.page)
  const row = asked.locator('li').filter({ hasText: 'A trickle' })
  await row.locator('summary').click()
  await row.locator('[name=answer]').selectOption('planned')
  await row.locator('[name=promised]').fill('2026-11-24')
  await row.getByRole('button', { name: 'Save the answer' }).click()
  await desk.page.waitForFunction(() => document.body.innerText.includes('Promised for Nov 24, 2026'))
  await page.goto(own)
  expect(await words(page)).toContain('They plan to come on Nov 24, 2026')

  await desk.page.goto(`${site.url}/from-owners`)
  await expectAccessible(desk.page)
  const again = desk.page.locator('li').filter({ hasText: 'A trickle' })
  await again.getByRole('link', { name }).click()
  await desk.page.waitForURL(/\/wells\/[0-9a-f-]{36}/)
  const here = desk.page.locator('section[aria-labelledby=household] li').filter({ hasText: 'A trickle' })
  await here.locator('summary').click()
  await here.locator('[name=answer]').selectOption('done')
  await here.getByRole('button', { name: 'Save the answer' }).click()
  await here.waitFor({ state: 'detached' })
  await page.goto(own)
  expect(await words(page)).not.toContain('They plan to come')
})

test('a sheet of the household is asked about, answered, and confirmed with one press', async () => {
  const { page } = owner
  await page.goto(`${own}/samples/new`)
  await page.getByText('You have the results as a table?').click()
  await page.fill('[name=pasted]', 'Total Coliform\tAbsent\tper 100 mL\nE. coli\tAbsent\tper 100 mL')
  await page.getByRole('button', { name: 'Read the table into rows' }).click()
  await page.waitForFunction(() => document.body.innerText.includes('2 rows were read'))
  await page.fill('[name=sampleDate]', '2026-11-19')
  await page.fill('[name=sampleTime]', '08:30')
  await page.fill('[name=receivedDate]', '2026-11-19')
  await page.fill('[name=receivedTime]', '11:00')
  await page.locator('button[value=save]').click()
  await page.waitForURL(/\/samples\/[0-9a-f-]{36}/)
  const entryId = page.url().split('/').at(-1)?.split('?')[0] ?? ''

  await desk.page.goto(`${site.url}/from-owners`)
  const row = desk.page.locator('li').filter({ hasText: 'Total Coliform Absent' })
  await row.getByText('Ask the household').click()
  await row.getByRole('button', { name: 'Ask', exact: true }).click()
  await desk.page.waitForSelector('.error-summary')
  await expectAccessible(desk.page)
  await row.locator('[name=words]').fill('Which tap was it?')
  await row.getByRole('button', { name: 'Ask', exact: true }).click()
  await desk.page.waitForFunction(() => document.body.innerText.includes('Waits for the household'))

  await page.goto(own)
  expect(await words(page)).toContain('Which tap was it?')
  await page.getByRole('link', { name: 'Answer' }).click()
  await page.waitForURL(/\/answer\//)
  await expectAccessible(page)
  await page.fill('[name=words]', 'The kitchen tap')
  await page.getByRole('button', { name: 'Send the answer' }).click()
  await page.waitForURL(/saved=yes/)

  await desk.page.goto(`${site.url}/from-owners`)
  const answered = desk.page.locator('li').filter({ hasText: 'Total Coliform Absent' })
  expect(await answered.innerText()).toMatch(/Answered: look again[\s\S]*The kitchen tap/)
  await answered.getByRole('link', { name: 'What this sheet says' }).click()
  await desk.page.waitForURL(/\/samples\//)
  expect(await words(desk.page)).toMatch(/Not confirmed/)
  await desk.page.getByRole('button', { name: 'Looked at: it is right' }).click()
  await desk.page.waitForFunction(() => !document.body.innerText.includes('Not confirmed'))
  await page.goto(`${own}/samples/${entryId}`)
  expect(await words(page)).not.toContain('A good one counts when')
})

test('the pages of a household are for reading grade 8 at most, as they are shown', async () => {
  const { page } = owner
  for (const path of ['', '/what-if', '/ask', '/tank', '/reading']) {
    await page.goto(`${own}${path}`)
    const text = await page
      .locator('main p, main li:not(:has(li)), main dd')
      .evaluateAll((nodes) =>
        nodes.filter((node) => !node.closest('details:not([open])')).map((node) => node.textContent ?? ''),
      )
    // The measure counts up to one grade low.
    expect(grade(text.join('\n')), path).toBeLessThanOrEqual(8 - 1)
    expect(text.join('\n'), path).not.toMatch(/\bsafe\b/i)
  }
})

test('it prints without buttons and forms', async () => {
  const { page } = owner
  await page.goto(own)
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('main .button:visible').count()).toBe(0)
  expect(await page.locator('main h2:visible').allInnerTexts()).toEqual(
    expect.arrayContaining(['Your water', 'Your well']),
  )
  await page.emulateMedia({ media: 'screen' })
})

describe('mail and calendar', () => {
  test('a calendar address is shown once, reads as a calendar, and is dead when it is renewed', async () => {
    const { page } = owner
    await page.goto(`${site.url}/account`)
    await page.getByRole('button', { name: 'Make a calendar address' }).click()
    const first = await page.locator('.feed-address').innerText()
    await expectAccessible(page)
    // Read without any cookie, as a calendar program does.
    const stranger = await browser.newContext()
    const answer = await stranger.request.get(first)
    expect(answer.status()).toBe(200)
    expect(answer.headers()['content-type']).toBe('text/calendar; charset=utf-8')
    expect(answer.headers()['cache-control']).toBe('no-store')
    expect(await answer.text()).toMatch(/^BEGIN:VCALENDAR\r\n[\s\S]*BEGIN:VEVENT/)
    await page.reload()
    expect(await words(page)).not.toContain(first)
    await page.getByRole('button', { name: /Make a new address/ }).click()
    await page.locator('.feed-address').waitFor()
    expect((await stranger.request.get(first)).status()).toBe(404)
    await page.reload()
    await page.getByRole('button', { name: 'Take it back' }).click()
    await page.waitForFunction(() => document.body.innerText.includes('no calendar address yet'))
    await stranger.close()
  })

  test('what goes out tomorrow is told beforehand, and what failed can be sent again', async () => {
    const { page } = desk
    await page.goto(`${site.url}/settings`)
    await page.getByRole('link', { name: 'Reminders' }).click()
    await page.waitForURL(/\/reminders$/)
    await page.locator('details > summary').first().click()
    expect(await page.locator('.letter').first().innerText()).toMatch(/Hello .+[\s\S]*To get no more of/)
    await expectAccessible(page)
    const db = await openDb(site.file)
    const clock = { now: () => `${TODAY}T08:00:00.000Z`, today: TODAY, claim: true }
    await sendReminders(db, clock, { kind: 'smtp', url: 'smtp://127.0.0.1:9', from: 'a@b.example' })
    await page.reload()
    expect(await page.locator('section[aria-labelledby=troubles]').innerText()).toMatch(
      /Failed[\s\S]*Tried once/,
    )
    await expectAccessible(page)
    // It leads back to this very page: what tells that it was done is the answer.
    await Promise.all([
      page.waitForResponse((answer) => answer.request().method() === 'POST'),
      page
        .getByRole('button', { name: /Send again/ })
        .first()
        .click(),
    ])
    const post = await mailServer()
    const later = { ...clock, now: () => new Date().toISOString() }
    await sendReminders(db, later, { kind: 'smtp', url: post.url, from: 'a@b.example' })
    expect(post.received.length).toBeGreaterThan(0)
    await post.stop()
    await db.close()
    await page.reload()
    expect(await words(page)).toContain('Sent')
  })

  test('the link of a mail switches them off without signing in; looking alone does not; the account switches them on', async () => {
    const db = await openDb(site.file)
    const { email } = site.people.find(({ role }) => role === 'owner') ?? { email: '' }
    const user = await db.prisma.user.findUniqueOrThrow({ where: { email } })
    const token = await quietToken(db, user.id)
    const off = async () => (await db.prisma.mailChoice.findUniqueOrThrow({ where: { userId: user.id } })).off
    const { page, context } = await openPage(browser)
    await page.goto(`${site.url}/quiet/${token}`)
    await expectAccessible(page)
    expect(await off()).toBe(false)
    await page.getByRole('button', { name: 'Switch them off' }).click()
    await page.waitForFunction(() => document.body.innerText.includes('They are switched off'))
    expect(await off()).toBe(true)
    await owner.page.goto(`${site.url}/account`)
    await owner.page.getByRole('button', { name: 'Switch mails on' }).click()
    await owner.page.waitForFunction(() => document.body.innerText.includes('Reminders come by mail'))
    expect(await off()).toBe(false)
    // As a mail program posts it: no cookie, no origin.
    const body = 'List-Unsubscribe=One-Click'
    const headers = { 'Content-Type': 'application/x-www-form-urlencoded' }
    const press = (address: string) => fetch(address, { method: 'POST', body, headers })
    expect((await press(`${site.url}/api/quiet/${token}`)).status).toBe(200)
    expect(await off()).toBe(true)
    expect((await press(`${site.url}/api/quiet/${token.slice(0, -1)}`)).status).toBe(404)
    await context.close()
    await db.close()
  })
})
