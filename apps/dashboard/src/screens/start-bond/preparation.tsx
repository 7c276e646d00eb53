import type { Draft } from './application.ts'
import styles from './start-bond.module.css'
import { Step } from './step.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly prepared: Draft['prepared']
  readonly onChange: (prepared: Draft['prepared']) => void
}

const ITEMS = [
  {
    key: 'surfaces',
    get label() {
      return t('start-bond.bothFacesArePrepared')
    },
    get detail() {
      return t('start-bond.asTheDataSheetSaysBrightBareMetalFor')
    },
  },
  {
    key: 'dryFit',
    get label() {
      return t('start-bond.dryFitDone')
    },
    get detail() {
      return t('start-bond.clampsAreSetOutAndFitAlongTheWhole')
    },
  },
  {
    key: 'skimCoat',
    get label() {
      return t('start-bond.skimCoat')
    },
    get detail() {
      return t('start-bond.allBaredMetalGetsAThinCoatBeforeThe')
    },
  },
] as const

/** The technician's own word, item by item. */
export function Preparation({ prepared, onChange }: Props) {
  return (
    <Step title={t('start-bond.n5Preparation')}>
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
