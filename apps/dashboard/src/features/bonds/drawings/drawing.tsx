import { lazily } from '../../../ui/lazily.tsx'
import styles from './drawing.module.css'
import type { DrawingName } from './lines.tsx'

export type { DrawingName }

const Lines = lazily(async () => (await import('./lines.tsx')).Lines)

/** What a step looks like, as a picture of our own. It says nothing that the words beside it do not. */
export function Drawing({ of }: { readonly of: DrawingName }) {
  return (
    <svg className={styles['drawing']} viewBox="0 0 72 48" aria-hidden focusable="false">
      <Lines of={of} />
    </svg>
  )
}
