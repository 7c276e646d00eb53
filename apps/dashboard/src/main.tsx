import './app/mantine.css'
import './app/theme.css'
import { changeWords } from '@clampclock/messages/load'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
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

/** For whoever looks for texts outside the catalogue: set in the browser's storage, and never in a menu. */
async function wordsChanged(): Promise<void> {
  if (sessionStorage.getItem('clampclock.words') !== 'pseudo') return
  const { pseudo } = await import('@clampclock/messages/pseudo')
  changeWords(pseudo)
}
