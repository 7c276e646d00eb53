import { Link } from '@tanstack/react-router'
import type { Bond } from '../../api/types.ts'
import { BondLine } from './bond-line.tsx'
import styles from './work.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bonds: readonly [Bond, ...Bond[]]
  /** On the page of another vehicle, which has such a button of its own: a glove would find the wrong one. */
  readonly isBesideAnother: boolean
}

/** Says how high it is, so that nothing at the foot of a page comes to lie behind it, whatever it tells. */
function cover(bar: HTMLElement): () => void {
  const root = document.documentElement.style
  const told = new ResizeObserver(() => root.setProperty('--covered-below', `${bar.offsetHeight}px`))
  told.observe(bar)
  return () => {
    told.disconnect()
    root.removeProperty('--covered-below')
  }
}

/**
 * Adhesive is on and the joint is not closed: whatever else is looked at, its clock stays in sight, and its button. Of
 * several the one that went on first.
 */
export function OpenJoints({ bonds: [first, ...others], isBesideAnother }: Props) {
  return (
    <section
      ref={cover}
      className={styles['openJoints']}
      aria-label={t('features.jointToClose')}
      data-open-joint
    >
      <BondLine key={first.id} bond={first} hasStep={!isBesideAnother} isOverAnother />
      {others.length > 0 && (
        <p>
          <Link to="/my-work">{t('features.moreToCloseMyWork', { others: others.length })}</Link>
        </p>
      )}
    </section>
  )
}
