import { useMediaQuery } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { bondQueries } from '../../api/queries/bonds.ts'
import type { Bond } from '../../api/types.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { lazily } from '../../ui/lazily.tsx'
import { Answered, Loading } from '../../ui/waiting.tsx'
import styles from './job.module.css'
import { reader, t } from '../../lib/reader.ts'

const BondCurveView = lazily(
  async () => (await import('../../features/bonds/curve/bond-curve.tsx')).BondCurveView,
  () => <Loading what={t('job.theCurve')} />,
)

/** The curve of a bond that cures stands open on a desk; on a phone, and once it is over, whoever wants it opens it. */
export function CurveDetails({ bond }: { readonly bond: Bond }) {
  const isDesk = useMediaQuery('(min-width: 48em)', undefined, { getInitialValueInEffect: false })
  const isCuring = bond.state === 'applied' || bond.state === 'clamped'
  const [chosen, setChosen] = useState<boolean>()
  const isOpen = chosen ?? (isDesk === true && isCuring)
  return (
    <details
      className={styles['details']}
      open={isOpen}
      onToggle={(event) => {
        const { open } = event.currentTarget
        if (open !== isOpen) setChosen(open)
      }}
    >
      <summary>{t('job.temperatureAndCureDrawn')}</summary>
      {isOpen && (
        <div className={styles['curve']}>
          <Curve bond={bond} />
        </div>
      )}
    </details>
  )
}

function Curve({ bond }: { readonly bond: Bond }) {
  const shop = useShop(bond.shopId)
  const nowMs = useNow(60_000)
  const curve = useQuery(bondQueries.curve(bond.id, bond.shopId))
  return (
    <Answered query={curve} what={t('job.theCurve')}>
      {(data) => (
        <BondCurveView
          curve={data}
          jointName={bond.jointName}
          unit={reader().temperature}
          zone={zoneOf(shop)}
          nowMs={nowMs}
        />
      )}
    </Answered>
  )
}
