/**
 * A page with one form over the code that keeps visits on a phone, bundled as the build bundles it. What it shows it
 * tells the test's server before anything else happens in the page, so that the test knows it even of a page that is
 * killed in the same moment.
 */
import { keepVisit } from '@/app/_offline/keep-visit'

const form = document.querySelector('form')
const says = document.querySelector('output')
if (!form || !says) throw new Error('the page lacks its form')

const photo = new DataTransfer()
photo.items.add(new File([new Uint8Array(400_000).fill(7)], 'lid.jpg', { type: 'image/jpeg' }))
const field = form.querySelector<HTMLInputElement>('[name=photo]')
if (field) field.files = photo.files

/** Waits for the server's word, with the page standing still: it is told before the page can be killed any further. */
function tell(what: 'shown'): void {
  const request = new XMLHttpRequest()
  request.open('POST', `/${what}${location.search}`, false)
  request.send()
}

form.addEventListener('submit', async (event) => {
  event.preventDefault()
  const id = new FormData(form).get('visitId')
  const about = { user: 'joss', wellId: 'W', label: 'W', units: 'us' as const, draftKey: `tap-${id}` }
  const { done = '' } = await keepVisit(new FormData(form), about)
  says.textContent = done
  if (done.includes('Saved on this phone')) tell('shown')
})
