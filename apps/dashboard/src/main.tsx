import './app/mantine.css'
import './app/theme.css'
import { changeWords } from '@clampclock/messages/load'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { theBox } from './api/acts/the-box.ts'
import { App } from './app/app.tsx'
import { keepShell } from './app/offline/keep-shell.ts'
import { reader, setReader } from './lib/reader.ts'

const root = document.getElementById('root')
if (root === null) throw new Error('index.html has no element with the id root')
const page = createRoot(root)
// Words first: without them there is nothing to say, not even what is wrong.
void wordsChanged()
  .then(() => setReader(reader()))
  .then(() =>
    page.render(
      <StrictMode>
        <App />
      </StrictMode>,
    ),
  )

keepShell()
// Beside all else: until it is read what was pressed here and waits, no answer is given, and the page would jump with it.
void theBox().catch(() => undefined)

/** For whoever looks for texts outside the catalogue: set in the browser's storage, and never in a menu. */
async function wordsChanged(): Promise<void> {
  if (sessionStorage.getItem('clampclock.words') !== 'pseudo') return
  const { pseudo } = await import('@clampclock/messages/pseudo')
  changeWords(pseudo)
}
