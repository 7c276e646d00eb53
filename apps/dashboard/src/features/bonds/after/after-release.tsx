import { Check, X } from 'lucide-react'
import type { ActAbout } from '../../../api/acts/act.ts'
import type { Bond, Joint } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { formatTemperature } from '../../../lib/measures.ts'
import { reader, t } from '../../../lib/reader.ts'
import styles from './after.module.css'
import { SlidButton } from './slid-button.tsx'

type Source = 'byTheProcedure' | 'byTheSheet' | 'commonPractice'
interface Said {
  readonly text: string
  readonly source: Source
}

type Released = ActAbout & Pick<Bond, 'id' | 'productName' | 'sheet'>

/** Of the joints of a vehicle that are released and may be relied on; nothing where there is none. */
export function AfterReleaseOfJob({ joints }: { readonly joints: readonly Joint[] }) {
  const released = joints.flatMap(({ state, bonds }) =>
    state === 'releasedReady' || state === 'accepted' ? bonds.slice(-1) : [],
  )
  return released.length === 0 ? null : <AfterRelease bonds={released} />
}

/** Once the clamps are off: what may be done to the joint, what may not, and who says so. */
export function AfterRelease({ bonds }: { readonly bonds: readonly Released[] }) {
  const may = useMay()
  const products = [...new Map(bonds.map((bond) => [`${bond.productName} ${bond.sheet.id}`, bond])).values()]
  return (
    <section className={styles['card']} aria-label={t('start-bond.after.whatNow')}>
      <h2>{t('start-bond.after.whatNow')}</h2>
      <div className={styles['lists']}>
        <Sayings
          title={t('start-bond.after.do')}
          is="do"
          items={[
            { text: t('start-bond.after.do.weld'), source: 'byTheProcedure' },
            { text: t('start-bond.after.do.fullCure'), source: 'byTheSheet' },
            ...products.map(({ productName: product, sheet: { serviceRangeC } }): Said => {
              const [low, high] = [serviceRangeC.min, serviceRangeC.max].map((c) =>
                formatTemperature(c, reader().temperature, 0),
              ) as [string, string]
              return { text: t('start-bond.after.do.service', { product, low, high }), source: 'byTheSheet' }
            }),
            { text: t('start-bond.after.do.wipe'), source: 'commonPractice' },
          ]}
        />
        <Sayings
          title={t('start-bond.after.dont')}
          is="dont"
          items={[
            { text: t('start-bond.after.dont.soak'), source: 'commonPractice' },
            { text: t('start-bond.after.dont.filler'), source: 'commonPractice' },
            { text: t('start-bond.after.dont.tacky'), source: 'commonPractice' },
            { text: t('start-bond.after.dont.pry'), source: 'commonPractice' },
          ]}
        />
      </div>
      <p className={styles['plain']}>{t('start-bond.after.sheetsRule')}</p>
      <div className={styles['buttons']}>
        {bonds
          .filter(({ shopId }) => may('makeBonds', shopId))
          .map((bond) => (
            <SlidButton
              key={bond.id}
              bond={bond}
              label={t('start-bond.after.movedAllTheSame', { joint: bond.jointName })}
            />
          ))}
      </div>
    </section>
  )
}

interface SayingsProps {
  readonly title: string
  readonly is: 'do' | 'dont'
  readonly items: readonly Said[]
}

function Sayings({ title, is, items }: SayingsProps) {
  const Icon = is === 'do' ? Check : X
  return (
    <div>
      <h3>{title}</h3>
      <ul>
        {items.map(({ text, source }) => (
          <li key={text} className={styles[is]}>
            <Icon size={18} aria-hidden />
            <span>
              {text} <small className={styles['source']}>{t(`start-bond.after.${source}`)}</small>
            </span>
          </li>
        ))}
      </ul>
    </div>
  )
}
