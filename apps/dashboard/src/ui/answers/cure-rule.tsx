import styles from './cure-rule.module.css'
import { percentOf } from './percent.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  /** What is measured, for a screen reader. */
  readonly label: string
  /** Fractions of handling strength; 1 is reached. */
  readonly conservative: number
  readonly expected: number
  readonly withCaption?: boolean
}

/** A steel rule of ten tenths: solid up to what is sure, hatched up to what is expected. */
/* oxlint-disable jsx-a11y/prefer-tag-over-role -- a progress element has one bar, this has two */
export function CureRule({ label, conservative, expected, withCaption = true }: Props) {
  const sure = percentOf(conservative)
  const likely = percentOf(expected)
  return (
    <div className={`${styles['rule']} ${conservative >= 1 ? styles['done'] : ''}`}>
      <div
        className={styles['track']}
        role="progressbar"
        aria-label={label}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={sure}
        aria-valuetext={t('ui.percentSurePercentExpected', { sure, likely })}
      >
        <div className={styles['expected']} style={{ width: `${likely}%` }} />
        <div className={styles['sure']} style={{ width: `${sure}%` }} />
      </div>
      <div className={styles['ticks']} aria-hidden>
        {Array.from({ length: 11 }, (_, tenth) => (
          <i key={tenth} />
        ))}
      </div>
      {withCaption && (
        <div className={styles['caption']}>
          <span>{t('ui.sure', { sure })}</span>
          <span>{t('ui.expected', { likely })}</span>
        </div>
      )}
    </div>
  )
}
