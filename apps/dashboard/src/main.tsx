import './app/mantine.css'
import './app/theme.css'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './app/app.tsx'
import { reader, setReader } from './lib/reader.ts'

const root = document.getElementById('root')
if (root === null) throw new Error('index.html has no element with the id root')
const page = createRoot(root)
// Words first: without them there is nothing to say, not even what is wrong.
void setReader(reader()).then(() =>
  page.render(
    <StrictMode>
      <App />
    </StrictMode>,
  ),
)
