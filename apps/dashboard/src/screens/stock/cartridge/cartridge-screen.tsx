import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { formatVolume } from '../../../lib/measures.ts'
import { rich } from '../../../lib/rich.tsx'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { Cartridge } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { LabelsButton } from '../../../features/labels/labels-button.tsx'
import { Ledger } from '../../../features/stock/ledger.tsx'
import { standingOf } from '../../../features/stock/standing.ts'
import { formatUntil } from '../../../features/stock/until.ts'
import { formatDistance } from '../../../lib/countdown.ts'
import { formatDate } from '../../../lib/instants.ts'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { useNow } from '../../../lib/use-now.ts'
import { CARTRIDGE_STATE, EXPIRY_LIMIT } from '../../../lib/words.ts'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Facts } from '../../../ui/facts.tsx'
import { Page, Section, Sheet } from '../../../ui/page.tsx'
import { Answered } from '../../../ui/waiting.tsx'
import { When } from '../../../ui/when.tsx'
import { CartridgeStorageSections } from './cartridge-storage.tsx'
import { CartridgeActions } from './cartridge-actions.tsx'
import { t } from '../../../lib/reader.ts'
import { UseItFor } from './use-it-for.tsx'

export function CartridgeScreen() {
  const { cartridgeId } = useParams({ from: '/in/stock/cartridges/$cartridgeId' })
  const cartridge = useQuery(stockQueries.cartridge(cartridgeId))
  return (
    <Answered query={cartridge} what={t('stock.theCartridge')}>
      {(data) => <CartridgePage cartridge={data} />}
    </Answered>
  )
}

function CartridgePage({ cartridge }: { readonly cartridge: Cartridge }) {
  const shop = useShop(cartridge.shopId)
  const zone = zoneOf(shop)
  const nowMs = useNow(60_000)
  const standing = standingOf(cartridge, nowMs)
  const untilMs = Date.parse(cartridge.effectiveExpiryAt)
  const may = useMay()
  const mayPrint = may('useStock', cartridge.shopId)
  const mayBond = may('makeBonds', cartridge.shopId)
  const isOver = cartridge.state === 'discarded' || cartridge.state === 'empty'
  return (
    <Page
      title={t('stock.cartridge3', { code: cartridge.code })}
      lede={`${cartridge.productName}, ${shop?.name ?? ''}`}
      actions={
        <>
          <CartridgeActions cartridge={cartridge} />
          {mayPrint && !isOver && (
            <LabelsButton what={{ cartridgeId: cartridge.id }} label={t('stock.printLabel')} count={1} />
          )}
        </>
      }
    >
      <Answer
        tone={standing.tone}
        question={t('stock.mayIUseIt')}
        word={standing.mayUse ? t('stock.yes') : t('stock.no', { why: standing.word.toLowerCase() })}
      >
        <p>{standing.sentence}</p>
        {!isOver && (
          <p>
            {rich(untilMs > nowMs ? 'stock.itCountsUntil' : 'stock.itCountedUntil', {
              until: (
                <strong>
                  <time dateTime={cartridge.effectiveExpiryAt}>
                    {formatUntil(cartridge.effectiveExpiryAt, zone)}
                  </time>
                </strong>
              ),
              distance: formatDistance(untilMs, nowMs),
              limit: EXPIRY_LIMIT[cartridge.expiryLimit].toLowerCase(),
            })}
          </p>
        )}
      </Answer>
      {standing.mayUse && mayBond && <UseItFor cartridge={cartridge} />}
      <Section title={t('stock.onTheLabelAndOnFile')}>
        <Sheet padded>
          <Facts
            facts={[
              [t('stock.state'), CARTRIDGE_STATE[cartridge.state]],
              [t('stock.content'), formatVolume(cartridge.remainingMl)],
              [
                t('stock.product'),
                <Link key="p" to="/products/$productId" params={{ productId: cartridge.productId }}>
                  {cartridge.productName}
                </Link>,
              ],
              [
                t('stock.lot4'),
                <Link key="l" to="/stock/lots/$lotId" params={{ lotId: cartridge.lotId }}>
                  {cartridge.lotNumber}
                </Link>,
              ],
              [t('stock.printedExpiry'), formatDate(cartridge.printedExpiry), 'printedExpiry'],
              [t('stock.form'), cartridge.cartridgeForm],
              [
                t('stock.dispenserInThisShop'),
                cartridge.fitsDispenser ? t('stock.takesIt') : t('stock.noneTakesIt'),
              ],
              [t('stock.place'), cartridge.locationName ?? t('stock.noPlaceGiven')],
              [t('stock.received2'), <When key="r" at={cartridge.receivedAt} zone={zone} style="full" />],
              [
                t('stock.opened'),
                cartridge.openedAt === null ? null : (
                  <When key="o" at={cartridge.openedAt} zone={zone} style="full" />
                ),
              ],
            ]}
          />
        </Sheet>
      </Section>
      <CartridgeStorageSections cartridgeId={cartridge.id} zone={zone} />
      <Section title={t('stock.movements')}>
        <Ledger filter={{ cartridgeId: cartridge.id }} showCartridge={false} />
      </Section>
    </Page>
  )
}
