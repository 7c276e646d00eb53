import { useQuery } from '@tanstack/react-query'
import { useSearch } from '@tanstack/react-router'
import { useEffect, useEffectEvent } from 'react'
import { stockQueries } from '../../api/queries/stock.ts'
import type { Cartridge, Joint } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'
import { CARTRIDGE_STATE } from '../../lib/words.ts'

export interface Scanned {
  readonly isHere: boolean
  readonly words: string
}

/**
 * A cartridge that was scanned, or that somebody came with from its page: chosen where it is of the joint's product and in
 * this shop, else told why it is not. Whether it may be used the gates say.
 */
export function useScannedCartridge(
  cartridges: readonly Cartridge[],
  joint: Joint,
  choose: (cartridgeId: string) => void,
): Scanned | undefined {
  const { cartridge: id, times } = useSearch({ from: '/in/jobs/$repairOrderId/joints/$jointId/bond' })
  const hereId = cartridges.find((each) => each.id === id)?.id
  const found = useQuery({ ...stockQueries.cartridge(id ?? ''), enabled: id !== undefined }).data
  const onScan = useEffectEvent(choose)
  useEffect(() => {
    if (hereId !== undefined) onScan(hereId)
  }, [hereId, times])
  if (id === undefined || found?.id !== id) return undefined
  return hereId === undefined
    ? { isHere: false, words: whyNot(found, joint) }
    : { isHere: true, words: t('start-bond.scanned', { code: found.code }) }
}

function whyNot(
  { code, productId, productName, state }: Pick<Cartridge, 'code' | 'productId' | 'productName' | 'state'>,
  joint: Pick<Joint, 'productId' | 'productName'>,
): string {
  if (productId !== joint.productId)
    return t('start-bond.scannedOther', { code, productName, jointProduct: joint.productName })
  if (state === 'empty' || state === 'discarded')
    return t('start-bond.scannedOver', { code, state: CARTRIDGE_STATE[state].toLowerCase() })
  return t('start-bond.scannedElsewhere', { code })
}
