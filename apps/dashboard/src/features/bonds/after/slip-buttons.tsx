import { Button } from '@mantine/core'
import { Unlink2 } from 'lucide-react'
import { happenedNow } from '../../../api/client.ts'
import type { Bond } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import styles from './after.module.css'
import { t } from '../../../lib/reader.ts'
import { SlidButton } from './slid-button.tsx'

interface Props {
  readonly bond: Bond
  /** With the instant of the press, ISO 8601. */
  readonly onLift: (at: string) => void
}

/** What panels do while they are aligned: slid, which is fine, and lifted, which ends the attempt. */
export function SlipButtons({ bond, onLift }: Props) {
  const zone = zoneOf(useShop(bond.shopId))
  return (
    <>
      <SlidButton bond={bond} />
      <Button
        variant="default"
        leftSection={<Unlink2 size={18} aria-hidden />}
        onClick={() => onLift(happenedNow())}
      >
        {t('start-bond.after.lifted')}
      </Button>
      {bond.slidAt !== null && (
        <p className={styles['wide']}>
          {t('start-bond.after.slidAt', { at: formatInstant(bond.slidAt, zone, 'clock') })}
        </p>
      )}
    </>
  )
}
