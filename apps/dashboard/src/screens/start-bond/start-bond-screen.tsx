import { useInfiniteQuery, useQueries, useQuery } from '@tanstack/react-query'
import { Link, useParams, useSearch } from '@tanstack/react-router'
import { productQueries } from '../../api/queries/products.ts'
import { repairQueries } from '../../api/queries/repairs.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import { stockQueries } from '../../api/queries/stock.ts'
import type { Cartridge, Joint, RepairOrderDetail, Reservation } from '../../api/types.ts'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty, Loading } from '../../ui/waiting.tsx'
import type { ReservedCartridge } from './cartridge-choice.tsx'
import { StartBondForm } from './start-bond-form.tsx'
import { t } from '../../lib/reader.ts'

/** From a clean joint to 'adhesive is on'. */
export function StartBondScreen() {
  const { repairOrderId, jointId } = useParams({ from: '/in/jobs/$repairOrderId/joints/$jointId/bond' })
  const job = useQuery(repairQueries.one(repairOrderId))
  return (
    <Answered query={job} what={t('start-bond.theJoint')}>
      {(data) => {
        const joint = data.joints.find((candidate) => candidate.id === jointId)
        if (joint === undefined) return <Empty title={t('start-bond.thisRepairOrderHasNoSuchJoint')} />
        return <JointReady job={data} joint={joint} />
      }}
    </Answered>
  )
}

function JointReady({ job, joint }: { readonly job: RepairOrderDetail; readonly joint: Joint }) {
  const { shopId } = job
  const cartridges = useInfiniteQuery(stockQueries.cartridges({ shopId, productId: joint.productId }))
  const dispensers = useQuery(shopQueries.dispensers(shopId))
  const resources = useQuery(shopQueries.resources(shopId))
  const kept = useQuery(stockQueries.reservations({ shopId }))
  const keptItems = kept.data?.items ?? []
  const keptIds = keptItems
    .filter(({ jointId }) => jointId === joint.id)
    .map(({ cartridgeId }) => cartridgeId)
  const { cartridge: scannedId } = useSearch({ from: '/in/jobs/$repairOrderId/joints/$jointId/bond' })
  // Beyond the first page of the shop's cartridges as well.
  const named = [...new Set([...keptIds, ...(scannedId === undefined ? [] : [scannedId])])]
  const namedOnes = useQueries({ queries: named.map((id) => stockQueries.cartridge(id)) })
    .flatMap(({ data }) => (data === undefined ? [] : [data]))
    .filter((each) => keptIds.includes(each.id) || isOf(each, shopId, joint.productId))
  const instruments = useQuery(shopQueries.instruments(shopId))
  // Not waited for where it cannot be had: what asks the most is then asked for.
  const product = useQuery(productQueries.one(joint.productId))
  const back = (
    <Link to="/jobs/$repairOrderId" params={{ repairOrderId: job.id }}>
      {t('start-bond.backToTheJob')}
    </Link>
  )
  return (
    <Page
      title={t('start-bond.bond', { name: joint.name })}
      lede={`${job.number}, ${job.vehicle} · ${joint.productName}`}
      narrow
      actions={back}
    >
      <Answered query={cartridges} what={t('start-bond.cartridges')}>
        {({ pages }) =>
          dispensers.data === undefined ||
          resources.data === undefined ||
          instruments.data === undefined ||
          product.isPending ? (
            <Loading what={t('start-bond.dispensersBaysAndInstruments')} />
          ) : (
            <StartBondForm
              instruments={instruments.data.items}
              keptIds={keptIds}
              job={job}
              joint={joint}
              product={product.data}
              cartridges={withKept(
                pages.flatMap((page) => page.items),
                namedOnes,
              ).map((cartridge) => withReserved(cartridge, keptItems, joint.id))}
              dispensers={dispensers.data.items.filter(({ active }) => active)}
              bays={resources.data.items.filter(({ kind, active }) => kind === 'bay' && active)}
            />
          )
        }
      </Answered>
    </Page>
  )
}

/** Of this shop's own, of the joint's product, with something in it: as the list has them. */
function isOf({ shopId, productId, state }: Cartridge, ofShop: string, ofProduct: string): boolean {
  return shopId === ofShop && productId === ofProduct && (state === 'sealed' || state === 'opened')
}

function withReserved(
  cartridge: Cartridge,
  kept: readonly Reservation[],
  jointId: string,
): ReservedCartridge {
  const here = kept.filter(({ cartridgeId }) => cartridgeId === cartridge.id)
  const sum = (items: readonly Reservation[]) => items.reduce((total, { amountMl }) => total + amountMl, 0)
  const othersMl = sum(here.filter((each) => each.jointId !== jointId))
  return {
    ...cartridge,
    ownMl: sum(here.filter((each) => each.jointId === jointId)),
    othersMl,
    freeMl: Math.max(0, cartridge.remainingMl - othersMl),
  }
}

function withKept(listed: readonly Cartridge[], kept: readonly Cartridge[]): readonly Cartridge[] {
  return [...listed, ...kept.filter(({ id }) => listed.every((other) => other.id !== id))]
}
