import { Link } from '@tanstack/react-router'
import { CircleCheck, OctagonAlert, TriangleAlert } from 'lucide-react'
import { Mark } from '../../ui/answers/mark.tsx'
import type { Finding, Findings } from './findings.ts'
import styles from './overview.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly findings: Findings
  readonly showShops: boolean
}

export function FindingList({ findings, showShops }: Props) {
  return (
    <div className={styles['findings']}>
      {findings.present.length === 0 && (
        <p className={styles['allWell']}>
          <CircleCheck size={28} aria-hidden />
          {t('overview.nothingNeedsAPersonNow')}
        </p>
      )}
      <ol aria-label={t('overview.whatNeedsAttention')}>
        {findings.present.map((finding) => (
          <FindingRow key={finding.key} finding={finding} showShops={showShops} />
        ))}
      </ol>
      {findings.absent.length > 0 && (
        <p className={styles['absent']}>
          <Mark tone="ready">{t('overview.none')}</Mark> {findings.absent.join(' · ')}
        </p>
      )}
    </div>
  )
}

function FindingRow({ finding, showShops }: { readonly finding: Finding; readonly showShops: boolean }) {
  const Icon = finding.tone === 'danger' ? OctagonAlert : TriangleAlert
  return (
    <li className={`${styles['finding']} ${styles[finding.tone]}`}>
      <Link {...finding.target} className={styles['total']}>
        <Icon size={20} aria-hidden />
        <span className={styles['count']}>{finding.total}</span>
        <span className={styles['words']}>{t(finding.words, { n: finding.total })}</span>
      </Link>
      <span className={styles['consequence']}>{finding.consequence}</span>
      {showShops && (
        <ul className={styles['perShop']} aria-label={t('overview.byShop')}>
          {finding.perShop.map(({ shopId, name, count }) => (
            <li key={shopId}>
              <Link to={finding.target.to} search={{ ...finding.target.search, shop: shopId }}>
                {name} <strong>{count}</strong>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </li>
  )
}
