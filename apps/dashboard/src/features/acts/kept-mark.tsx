import type { Act } from '../../api/acts/act.ts'
import { formatInstant } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { Mark } from '../../ui/answers/mark.tsx'

/** In the place of what was pressed, while no answer has come: it is kept, and nobody need press it again. */
export function KeptMark({ act }: { readonly act: Act }) {
  const zone = zoneOf(useShop(act.about.shopId))
  return (
    <output>
      <Mark tone="warning">{t('features.keptSince', { at: formatInstant(act.at, zone, 'clock') })}</Mark>
    </output>
  )
}
