import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite, wellPath } from './harness'

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

describe('wear and pump of a well', () => {
  test('tells when the cartridge is due and why, with its chart and table, on phone and desk', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'lower bench 2')
    await page.goto(`${site.url}${well}`)
    const short = await page.locator('section:has(> #wear)').innerText()
    expect(short).toContain('Overhaul the pump: by what was measured')
    await page.getByRole('link', { name: 'Cartridge, brushes, pump and lift' }).click()
    await page.waitForURL(/\/wear$/)
    const words = (await page.locator('main').innerText()).replaceAll('\u00a0', ' ')
    for (const part of [
      'The cartridge reaches its terminal drop of 20.0 psi about',
      '8 times in 10 between',
      'costs least, a late day counted 3 times an early one',
      "This well's own cartridges suggest",
      'It is an offer',
      'Pump or well?',
      'Suction lift is least in',
      'common practice, no published source',
      'lock out and prove dead',
    ]) {
      expect(words).toContain(part)
    }
    await page.getByText('The same as a table').first().click()
    expect(await page.locator('#cartridge ~ figure tbody tr').count()).toBeGreaterThan(0)
    await expectAccessible(page)
    const cut = await page.locator('svg.chart-wide text').evaluateAll(
      (texts) =>
        texts.filter((text) => {
          const frame = text.closest('svg')?.getBoundingClientRect()
          const box = text.getBoundingClientRect()
          return frame ? box.left < frame.left - 1 || box.right > frame.right + 1 : true
        }).length,
    )
    expect(cut).toBe(0)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('takes the least brush length from the pump model, and draws every brush', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 1280 })
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'milking parlour')
    await page.goto(`${site.url}${well}/duties/new`)
    await page.fill('[name=name]', 'Change brush set')
    await page.getByLabel(/^Wear: something/).check()
    await page.fill('[name=brushLimit]', '0.3 in')
    await page.fill('[name=lastDoneOn]', '2020-12-10')
    await page.getByRole('button', { name: 'Add the duty' }).click()
    await page.waitForURL(`${site.url}${well}`)
    await page.goto(`${site.url}${well}/wear`)
    const brushes = page.locator('section:has(> #brushes)')
    expect(await brushes.innerText()).toContain('brush 2')
    expect(await brushes.locator('svg.chart-wide').isVisible()).toBe(true)
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('tells a tired pump, what the lift takes for granted and a valve that leaks, each as it is', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const words = async (search: string, section: string) => {
      await page.goto(`${site.url}${await wellPath(page, site, search)}/wear`)
      return (await page.locator(`section:has(> #${section})`).innerText()).replaceAll('\u00a0', ' ')
    }
    expect(await words('lower bench 2', 'pump')).toContain('The pump gives less')
    expect(await words('grange hall', 'prime')).toMatch(/Look at the check valve[\s\S]*41\.0 psi at once/)
    const lift = await words('pear block south', 'lift')
    expect(lift).toContain('by Darcy–Weisbach')
    expect(lift).toContain('NPSH required by its model')
    expect(await words('larch 1', 'frost')).toContain('Within the frost')
    await expectAccessible(page)
    await context.close()
  })

  test('shows a blinded cartridge, odd brushes, hours without a meter and a lift that runs out', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    for (const [search, section, told] of [
      ['glasshouse 2', 'cartridge', 'has blinded the cartridge'],
      ['dairy road 11', 'brushes', 'look for misalignment'],
      ['retreat hill', 'brushes', 'look at the commutator'],
      ['tollefsen house', 'brushes', 'volume and flow'],
      ['red clay 3', 'brushes', 'hours of sun'],
      ['larch 2', 'lift', 'falls short by'],
    ] as const) {
      await page.goto(`${site.url}${await wellPath(page, site, search)}/wear`)
      expect(await page.locator(`section:has(> #${section})`).innerText(), search).toContain(told)
    }
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('tells each kind of part that is in place once, with its warranty', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(`${site.url}${await wellPath(page, site, 'lower bench 2')}`)
    const inPlace = page.locator('section:has(> .group-head > #parts) > .table-frame tbody tr')
    await inPlace.filter({ hasText: 'cartridge' }).waitFor()
    expect(await inPlace.filter({ hasText: 'cartridge' }).count()).toBe(1)
    const pump = await inPlace.filter({ hasText: 'Bench Piston 5' }).innerText()
    expect(pump.replaceAll('\u00a0', ' ')).toMatch(/warranty|ended|until/i)
    await context.close()
  })

  test('offers the interval, and sets the duty to it by one button, for the installer alone', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'lower bench 2')
    await page.goto(`${site.url}${well}/wear`)
    const button = page.getByRole('button', { name: /^Set “Change sediment cartridge” to/ })
    expect(await button.count()).toBe(0)
    await context.clearCookies()
    await signIn(page, site, 'installer')
    await page.goto(`${site.url}${well}/wear`)
    await button.click()
    await page.waitForURL(/done=interval/)
    await page.getByRole('status').filter({ hasText: 'The duty is set to the interval' }).waitFor()
    await context.close()
  })

  test('works without script, says what to enter, and does not exist for an owner', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'ridge hut')
    await page.goto(`${site.url}${well}/wear`)
    const words = await page.locator('main').innerText()
    expect(words).toContain('How much suction lift is left cannot be said. Enter a level at rest')
    expect(words).toContain('the level while pumping')
    await context.clearCookies()
    await signIn(page, site, 'owner')
    const answer = await page.request.get(`${site.url}${well}/wear`)
    expect(answer.status()).toBe(404)
    expect(await answer.text()).not.toContain('Suction lift is')
    await context.close()
  })
})

describe('models, and wells set up alike', () => {
  test('a model is added, refused with what was typed, and given to the wells of one search', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'installer')
    await page.goto(`${site.url}/models`)
    await expectAccessible(page)
    await page.getByRole('link', { name: 'Add a pump model' }).click()
    await page.waitForURL(/models\/pump\/new/)
    await page.fill('[name=name]', 'Heron 3')
    await page.getByLabel(/^Diaphragm or piston/).check()
    await page.fill('[name=brushNewM]', '0.5 in')
    await page.fill('[name=brushMinimumM]', '0.7 in')
    await page.fill('[name=sheet]', '5; 20\n7; ten')
    await page.getByRole('button', { name: 'Add the model' }).click()
    await page
      .getByText('The least length must be shorter')
      .or(page.getByText('must read: flow; head'))
      .first()
      .waitFor()
    expect(await page.inputValue('[name=name]')).toBe('Heron 3')
    await expectAccessible(page)
    await page.fill('[name=brushMinimumM]', '0.3 in')
    await page.fill('[name=sheet]', '5; 20\n7; 10')
    await page.getByRole('button', { name: 'Add the model' }).click()
    await page.waitForURL(/\/models$/)
    expect(await page.locator('main').innerText()).toContain('Heron 3')

    await page.goto(`${site.url}/wells?q=larch`)
    await page.getByRole('button', { name: 'Set all that this search finds up alike' }).click()
    await page.waitForURL(/set-up/)
    await page.selectOption('[name=pump]', { label: 'Heron 3' })
    await page.getByRole('button', { name: 'Show what would change' }).click()
    await page.getByRole('heading', { name: 'What would change' }).waitFor()
    await expectAccessible(page)
    await page.getByRole('button', { name: /^Set up \d wells$/ }).click()
    await page.waitForURL(/done=/)
    await page.getByRole('status').filter({ hasText: 'wells were set up' }).waitFor()
    await page.getByRole('link', { name: 'Take this step back' }).click()
    await page.getByRole('button', { name: 'Take the import back' }).click()
    await page.getByText('was taken back').first().waitFor()
    expect(complaints).toEqual([])
    await context.close()
  })

  test('neither exists for a technician', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    for (const path of ['/models', '/models/pump/new', '/wells/set-up']) {
      expect((await page.request.get(`${site.url}${path}`)).status()).toBe(404)
    }
    await context.close()
  })
})
