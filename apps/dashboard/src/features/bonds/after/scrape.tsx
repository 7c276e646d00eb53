import { Button, Group, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { Droplets } from 'lucide-react'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { Bond } from '../../../api/types.ts'
import { formatVolume } from '../../../lib/measures.ts'
import { t } from '../../../lib/reader.ts'
import { useNow } from '../../../lib/use-now.ts'
import { standingOf } from '../../stock/standing.ts'
import { Drawing } from '../drawings/drawing.tsx'
import styles from './after.module.css'

const STEPS = [
  'start-bond.after.scrape.faces',
  'start-bond.after.scrape.wipe',
  'start-bond.after.scrape.coat',
  'start-bond.after.scrape.nozzle',
  'start-bond.after.scrape.gloves',
] as const

interface Props {
  readonly bond: Bond
  /** No answer came: it is kept on the device, and not in the record yet. */
  readonly isKept: boolean
  readonly onClose: () => void
}

/** What comes off before the next attempt, and the way to it: with the same cartridge where that may still be used. */
export function ScrapeAndStartAgain({ bond, isKept, onClose }: Props) {
  const nowMs = useNow(60_000)
  const cartridge = useQuery(stockQueries.cartridge(bond.cartridgeId)).data
  const standing = cartridge && standingOf(cartridge, nowMs)
  const mayUse = standing?.mayUse === true
  return (
    <Stack gap="md">
      <p className={styles['plain']}>
        {isKept ? t('start-bond.after.keptScrape') : t('start-bond.after.recordedScrape')}
      </p>
      <div className={styles['scrape']}>
        <ol>
          {STEPS.map((key) => (
            <li key={key}>{t(key)}</li>
          ))}
        </ol>
        <Drawing of="scrape" />
      </div>
      <p className={styles['source']}>
        {t('start-bond.after.commonPractice')}. {t('start-bond.after.sheetsRule')}
      </p>
      {cartridge !== undefined && standing !== undefined && (
        <p className={styles['plain']}>
          {mayUse
            ? t('start-bond.after.mayBeUsed', {
                code: cartridge.code,
                left: formatVolume(cartridge.remainingMl),
              })
            : t('start-bond.after.mayNotBeUsed', { code: cartridge.code, why: standing.sentence })}
        </p>
      )}
      <Group justify="flex-end">
        <Button variant="default" size="md" onClick={onClose}>
          {t('start-bond.after.later')}
        </Button>
        <Button
          size="md"
          leftSection={<Droplets size={18} aria-hidden />}
          renderRoot={(props) => (
            <Link
              {...props}
              to="/jobs/$repairOrderId/joints/$jointId/bond"
              params={{ repairOrderId: bond.repairOrderId, jointId: bond.jointId }}
              search={mayUse ? { cartridge: bond.cartridgeId } : {}}
            />
          )}
        >
          {mayUse
            ? t('start-bond.after.startAgainWith', { code: bond.cartridgeCode })
            : t('start-bond.after.startAgain')}
        </Button>
      </Group>
    </Stack>
  )
}
