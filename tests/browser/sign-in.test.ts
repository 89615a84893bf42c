import type { Browser } from 'playwright-core'
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

test('a stranger is led to the door, whatever they ask for, and back to it after signing in', async () => {
  const { page, context } = await openPage(browser)
  await page.goto(`${site.url}/wells?q=larch`)
  await page.waitForURL(/\/sign-in/)
  await expectAccessible(page)
  for (const path of ['/api/export/wells.csv', '/api/import/x']) {
    expect((await page.request.get(`${site.url}${path}`)).status(), path).toBe(404)
  }
  await context.close()
})

test('a wrong password and an unknown address are answered alike, and the address typed is kept', async () => {
  const { page, context } = await openPage(browser)
  const said: string[] = []
  for (const email of [site.people[0]?.email ?? '', 'nobody@example.test']) {
    await page.goto(`${site.url}/sign-in`)
    await page.fill('[name=email]', email)
    await page.fill('[name=password]', 'not-the-password-1')
    await page.locator('main button[type=submit]').click()
    await page.waitForSelector('.error-summary')
    expect(await page.inputValue('[name=email]')).toBe(email)
    said.push(await page.locator('.error-summary').innerText())
  }
  expect(said[0]).toBe(said[1])
  await expectAccessible(page)
  await context.close()
})

test('signing in works without script, and signing out ends the session and drops half-filled forms', async () => {
  const plain = await openPage(browser, { script: false })
  await signIn(plain.page, site, 'technician')
  expect(await plain.page.locator('h1').innerText()).toBe('Due')
  await plain.context.close()

  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/account`)
  await expectAccessible(page)
  await page.evaluate(() => localStorage.setItem('wellround-draft:visit-x', '{"note":"half"}'))
  await page.getByRole('button', { name: 'Sign out', exact: true }).click()
  await page.waitForURL(/\/sign-in/)
  await page.waitForFunction(() => localStorage.length === 0)
  await page.goto(`${site.url}/wells`)
  await page.waitForURL(/\/sign-in/)
  expect(complaints).toEqual([])
  await context.close()
})

test('the installer adds a technician, who signs in and changes the password', async () => {
  const office = await openPage(browser, { width: 1280 })
  await signIn(office.page, site, 'installer')
  await office.page.goto(`${site.url}/settings`)
  await expectAccessible(office.page)
  await office.page.fill('#person-name', 'Ida')
  await office.page.fill('#person-email', 'ida@example.test')
  await office.page.fill('#person-password', 'lantern-for-ida-1')
  await office.page.getByRole('button', { name: 'Add the person' }).click()
  await office.page.getByText('ida@example.test').first().waitFor()
  await office.context.close()

  const { page, context } = await openPage(browser)
  const withIda = {
    ...site,
    people: [{ role: 'technician', email: 'ida@example.test', password: 'lantern-for-ida-1' }],
  }
  await signIn(page, withIda, 'technician')
  await page.goto(`${site.url}/account`)
  await page.fill('[name=current]', 'lantern-for-ida-1')
  for (const box of await page.locator('input[autocomplete=new-password]').all())
    await box.fill('thimble-for-ida-2')
  await page.getByRole('button', { name: /Change the password/ }).click()
  await page.getByText('The password is changed').waitFor()
  expect((await page.request.get(`${site.url}/settings`)).status()).toBe(404)
  await context.close()
})

test('a request that does not come from the site itself changes nothing', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  for (const origin of ['https://evil.example', 'null']) {
    const answer = await page.request.post(`${site.url}/sign-out`, { headers: { Origin: origin } })
    expect(answer.status(), origin).toBe(403)
  }
  await page.goto(`${site.url}/wells`)
  expect(new URL(page.url()).pathname).toBe('/wells')
  await context.close()
})
