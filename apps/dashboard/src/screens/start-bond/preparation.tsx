import type { Draft } from './application.ts'
import styles from './start-bond.module.css'
import { Step } from './step.tsx'

interface Props {
  readonly prepared: Draft['prepared']
  readonly onChange: (prepared: Draft['prepared']) => void
}

const ITEMS = [
  {
    key: 'surfaces',
    label: 'Both faces are prepared',
    detail: 'As the data sheet says: bright bare metal for most acrylics, wiped with solvent, flashed off.',
  },
  { key: 'dryFit', label: 'Dry fit done', detail: 'Clamps are set out and fit along the whole length.' },
  { key: 'skimCoat', label: 'Skim coat', detail: 'All bared metal gets a thin coat before the bead.' },
] as const

/** The technician's own word, item by item. */
export function Preparation({ prepared, onChange }: Props) {
  return (
    <Step title="5. Preparation">
      <div className={styles['choices']}>
        {ITEMS.map(({ key, label, detail }) => (
          <label key={key} className={styles['choice']}>
            <input
              type="checkbox"
              checked={prepared[key]}
              onChange={(event) => onChange({ ...prepared, [key]: event.currentTarget.checked })}
            />
            <strong>{label}</strong>
            <small className={styles['detail']}>{detail}</small>
          </label>
        ))}
      </div>
    </Step>
  )
}
