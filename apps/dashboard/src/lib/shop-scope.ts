import { useNavigate, useSearch } from '@tanstack/react-router'
import { useMe, useShops } from '../api/use-me.ts'
import type { Shop } from '../api/types.ts'

const KEY = 'clampclock.shop'
const ALL = 'all'

interface Choice {
  readonly fromUrl: string | undefined
  readonly remembered: string | null
  /** The shop that a person belongs to, if it is only one. */
  readonly own: string | undefined
  readonly shops: readonly Shop[]
}

/** The shop that screens show, or undefined for all: the address first, then what was chosen last, then one's own. */
export function chooseShop({ fromUrl, remembered, own, shops }: Choice): Shop | undefined {
  const named = shops.find((shop) => shop.id === fromUrl)
  if (named !== undefined) return named
  if (shops.length === 1) return shops[0]
  if (remembered === ALL) return undefined
  return shops.find((shop) => shop.id === (remembered ?? own))
}

function useOwnShop(): string | undefined {
  const ids = new Set(useMe().memberships.map((membership) => membership.shopId))
  const [only] = ids
  return ids.size === 1 && only !== null ? only : undefined
}

/** The shop in view (undefined: all of them) and how to choose another. */
export function useShopScope() {
  const shops = useShops()
  const search = useSearch({ strict: false })
  const navigate = useNavigate()
  const own = useOwnShop()
  const shop = chooseShop({ fromUrl: search.shop, remembered: localStorage.getItem(KEY), own, shops })
  const choose = (shopId: string | undefined) => {
    localStorage.setItem(KEY, shopId ?? ALL)
    void navigate({ to: '.', search: (old) => ({ ...old, shop: shopId }), replace: true })
  }
  return { shop, shops, choose }
}

/** For screens that show one shop at a time: the one in view, else one's own, else the first. */
export function useOneShop() {
  const { shop, shops, choose } = useShopScope()
  const own = useOwnShop()
  const one = shop ?? shops.find((candidate) => candidate.id === own) ?? shops[0]
  return { shop: one, shops, choose }
}

/** A shop by its id, for times and units of what stands there. */
export function useShop(shopId: string | undefined): Shop | undefined {
  return useShops().find((shop) => shop.id === shopId)
}

/** Zone of a shop; UTC while the shop isn't known. */
export function zoneOf(shop: Shop | undefined): string {
  return shop?.timeZone ?? 'utc'
}
