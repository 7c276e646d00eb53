import type { Permission } from '@clampclock/contracts'
import { useSuspenseQuery } from '@tanstack/react-query'
import { mayDo } from './permissions.ts'
import { accessQueries } from './queries/access.ts'
import { shopQueries } from './queries/shops.ts'
import type { Me, Shop } from './types.ts'

/** Who is signed in. Used below the sign-in only, where it is known. */
export function useMe(): Me {
  return useSuspenseQuery(accessQueries.me()).data
}

/** Asks whether the person may do something, in one shop, in every shop (null) or in any. */
export function useMay(): (permission: Permission, shopId?: string | null) => boolean {
  const me = useMe()
  return (permission, shopId) => mayDo(me, permission, shopId)
}

export function useShops(): readonly Shop[] {
  return useSuspenseQuery(shopQueries.all()).data.items
}
