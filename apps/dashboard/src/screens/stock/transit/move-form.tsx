import { ROUTES } from '../../../api/contracts.ts'
import { Button, Checkbox, NativeSelect, SegmentedControl, Stack, Textarea } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { ArrowRightLeft } from 'lucide-react'
import { useState, type SubmitEvent } from 'react'
import { shopQueries } from '../../../api/queries/shops.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { Cartridge, Shop } from '../../../api/types.ts'
import { CartridgeBasket, makersLabel } from '../../../features/scan/cartridge-basket.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  /** In which this person may move stock. */
  readonly shops: readonly Shop[]
  readonly allShops: readonly Shop[]
  readonly firstShop: Shop
  readonly first?: Cartridge
}

const nameOf = ({ id, name }: { readonly id: string; readonly name: string }) => ({ value: id, label: name })

export function MoveForm({ shops, allShops, firstShop, first }: Props) {
  const may = useMay()
  const [shopId, setShopId] = useState(firstShop.id)
  const [chosen, setChosen] = useState<readonly Cartridge[]>(first === undefined ? [] : [first])
  const [kind, setKind] = useState<'shelf' | 'shop'>('shelf')
  const [locationId, setLocationId] = useState('')
  const [toShopId, setToShopId] = useState('')
  const [reason, setReason] = useState('')
  const [done, setDone] = useState<string>()
  const locations = useQuery(shopQueries.locations(shopId))
  const finish = (sentence: string) => {
    setDone(sentence)
    setChosen([])
    setReason('')
    setHeldToo(false)
  }
  const move = useAction(ROUTES.moveCartridges, {
    topics: ['stock', 'alerts'],
    onDone: ({ cartridges }) =>
      finish(
        t('stock.movedTo', {
          cartridges: t('stock.pieces', { count: cartridges.length }),
          locationName: cartridges[0]?.locationName ?? t('stock.noLocation'),
        }),
      ),
  })
  const send = useAction(ROUTES.sendShipment, {
    topics: ['stock', 'alerts'],
    onDone: ({ lines }) => finish(t('stock.onTheWay', { lines: t('stock.pieces', { count: lines.length }) })),
  })
  const [heldToo, setHeldToo] = useState(false)
  const [isMakers, setIsMakers] = useState(false)
  const add = (cartridge: Cartridge) => {
    setDone(undefined)
    setChosen((old) => (old.some(({ id }) => id === cartridge.id) ? old : [...old, cartridge]))
  }
  const read = useAction(ROUTES.readScan, {
    topics: [],
    onDone: (answer) => {
      setIsMakers(answer.kind === 'product')
      if (answer.kind === 'cartridge') add(answer.cartridge)
    },
  })
  const isPending = move.isPending || send.isPending
  const held = chosen.filter(({ hold, quarantine }) => hold !== null || quarantine !== null)
  const others = allShops.filter(({ id }) => id !== shopId)
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    const cartridgeIds = chosen.map(({ id }) => id)
    if (kind === 'shop')
      send.mutate({ params: { shopId }, body: { toShopId, cartridgeIds, heldToo, reason } })
    else {
      const place = locationId === '' ? null : locationId
      move.mutate({ params: { shopId }, body: { cartridgeIds, locationId: place, reason } })
    }
  }
  return (
    <Sheet padded>
      <form onSubmit={submit}>
        <Stack gap="md">
          {done !== undefined && (
            <output>
              <Mark tone="ready">
                <>
                  {done}. <Link to="/stock/shipments">{t('stock.shipments')}</Link>
                </>
              </Mark>
            </output>
          )}
          {shops.length > 1 && (
            <NativeSelect
              label={t('stock.inShop')}
              value={shopId}
              data={shops.map(nameOf)}
              onChange={(event) => {
                setShopId(event.currentTarget.value)
                setChosen([])
                setLocationId('')
                setToShopId('')
              }}
            />
          )}
          <CartridgeBasket
            shopId={shopId}
            label={t('stock.scanWhatYouMove')}
            chosen={chosen}
            isPending={read.isPending}
            error={isMakers ? makersLabel() : read.error?.message}
            focusKey={read.submittedAt}
            onScan={(text) => read.mutate({ params: { shopId }, body: { text } })}
            onChoose={add}
            onRemove={({ id }) => setChosen((old) => old.filter((other) => other.id !== id))}
          />
          {others.length > 0 && may('handleStock', shopId) && (
            <SegmentedControl
              aria-label={t('stock.whereTo')}
              value={kind}
              data={[
                { value: 'shelf', label: t('stock.toAnotherShelf') },
                { value: 'shop', label: t('stock.toAnotherShop') },
              ]}
              onChange={(value) => setKind(value as 'shelf' | 'shop')}
            />
          )}
          {kind === 'shelf' ? (
            <NativeSelect
              label={t('stock.putWhere')}
              value={locationId}
              data={[
                { value: '', label: t('stock.noLocation2') },
                ...(locations.data?.items ?? []).map(nameOf),
              ]}
              onChange={(event) => setLocationId(event.currentTarget.value)}
            />
          ) : (
            <NativeSelect
              label={t('stock.sendTo')}
              required
              description={t('stock.onTheWayTheyCountInNeitherShopThere')}
              value={toShopId}
              data={[{ value: '', label: t('stock.choose') }, ...others.map(nameOf)]}
              onChange={(event) => setToShopId(event.currentTarget.value)}
            />
          )}
          {kind === 'shop' && held.length > 0 && (
            <Checkbox
              required
              label={t('stock.sendThemAlthoughTheyAreOnHoldOrIn')}
              description={t('stock.nobodyMayUseThemThereEitherUntil', {
                value: held.map(({ code }) => code).join(', '),
              })}
              checked={heldToo}
              onChange={(event) => setHeldToo(event.currentTarget.checked)}
            />
          )}
          <Textarea
            label={t('stock.why')}
            required={kind === 'shop'}
            {...(kind === 'shop' ? { minLength: 5 } : {})}
            maxLength={2000}
            autosize
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          <ProblemPanel error={move.error ?? send.error} />
          <Button
            type="submit"
            size="md"
            leftSection={<ArrowRightLeft size={18} aria-hidden />}
            loading={isPending}
            disabled={chosen.length === 0}
          >
            {kind === 'shop' ? t('stock.send') : t('stock.move')}
            {chosen.length > 0 && ` ${t('stock.pieces', { count: chosen.length })}`}
          </Button>
        </Stack>
      </form>
    </Sheet>
  )
}
