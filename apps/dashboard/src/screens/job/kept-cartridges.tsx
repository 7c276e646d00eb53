import { formatVolume } from '../../lib/measures.ts'
import { rich } from '../../lib/rich.tsx'
import { ROUTES } from '../../api/contracts.ts'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { BookmarkCheck, BookmarkX } from 'lucide-react'
import { stockQueries } from '../../api/queries/stock.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import type { Joint } from '../../api/types.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { When } from '../../ui/when.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly joint: Joint
  readonly shopId: string
}

/** Which cartridges wait for this joint, and for when. */
export function KeptCartridges({ joint, shopId }: Props) {
  const may = useMay()
  const zone = zoneOf(useShop(shopId))
  const kept = useQuery(stockQueries.reservations({ jointId: joint.id, shopId }))
  const params = { jointId: joint.id }
  const reserve = useAction(ROUTES.reserveForJoint, { topics: ['stock'] })
  const release = useAction(ROUTES.releaseReservation, { topics: ['stock'] })
  const items = kept.data?.items ?? []
  // A line of the height that it will have.
  if (kept.data === undefined)
    return (
      <Button size="xs" style={{ visibility: 'hidden' }} aria-hidden tabIndex={-1}>
        …
      </Button>
    )
  return (
    <>
      <Group gap="sm">
        {items.length === 0 ? (
          <span>{t('job.noCartridgeIsReservedForIt')}</span>
        ) : (
          <span>
            {rich('job.reservedForIt', {
              cartridges: (
                <>
                  {items.map((item, index) => (
                    <span key={item.id}>
                      {index > 0 && ', '}
                      <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: item.cartridgeId }}>
                        {item.code}
                      </Link>{' '}
                      ({formatVolume(item.amountMl, 'up')})
                    </span>
                  ))}
                </>
              ),
              at: <When at={items[0]!.neededAt} zone={zone} />,
            })}
          </span>
        )}
        {may('reserveStock', shopId) &&
          (items.length === 0 ? (
            <Button
              size="xs"
              variant="default"
              leftSection={<BookmarkCheck size={16} aria-hidden />}
              aria-label={t('job.reserveOneFor', { name: joint.name })}
              loading={reserve.isPending}
              onClick={() => reserve.mutate({ params, body: {} })}
            >
              {t('job.reserveOne')}
            </Button>
          ) : (
            <Button
              size="xs"
              variant="default"
              leftSection={<BookmarkX size={16} aria-hidden />}
              aria-label={t('job.releaseTheReservationFor', { name: joint.name })}
              loading={release.isPending}
              onClick={() => release.mutate({ params })}
            >
              {t('job.releaseReservation')}
            </Button>
          ))}
      </Group>
      <ProblemPanel error={reserve.error ?? release.error} />
    </>
  )
}
