import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './app'

/** The pages that this phone shows by itself: what waits on it, and what was taken along. Holds no data of its own. */
const place = document.getElementById('phone')
if (!place) throw new Error('the page has no place to show anything')
createRoot(place).render(
  <StrictMode>
    <App path={location.pathname} query={new URLSearchParams(location.search)} />
  </StrictMode>,
)
