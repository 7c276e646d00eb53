import { Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import type { Alert } from '../../api/types.ts'

/** To the page where the alert's subject can be dealt with. */
export function AlertLink({ alert, children }: { readonly alert: Alert; readonly children: ReactNode }) {
  const { kind, id } = alert.subject
  if (kind === 'cartridge') {
    return (
      <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: id }}>
        {children}
      </Link>
    )
  }
  if (kind === 'lot') {
    return (
      <Link to="/stock/lots/$lotId" params={{ lotId: id }}>
        {children}
      </Link>
    )
  }
  if (kind === 'product') {
    return (
      <Link to="/ordering" search={{ shop: alert.shopId }}>
        {children}
      </Link>
    )
  }
  if (kind === 'count') {
    return (
      <Link to="/stock/counts/$countId" params={{ countId: id }}>
        {children}
      </Link>
    )
  }
  if (alert.repairOrderId !== null) {
    return (
      <Link to="/jobs/$repairOrderId" params={{ repairOrderId: alert.repairOrderId }}>
        {children}
      </Link>
    )
  }
  return (
    <Link to={kind === 'sensor' ? '/bays' : '/schedule'} search={{ shop: alert.shopId }}>
      {children}
    </Link>
  )
}
