import type { ReactNode } from 'react'

export type DrawingName =
  'grind' | 'abrade' | 'wipe' | 'flashOff' | 'dryFit' | 'skimCoat' | 'bead' | 'clamp' | 'slide' | 'scrape'

/** A panel lying, from the side. */
const Panel = ({ y = 36, x = 6, width = 60 }) => (
  <rect data-part="metal" x={x} y={y} width={width} height="6" />
)

const LINES: Record<DrawingName, ReactNode> = {
  grind: (
    <>
      <Panel />
      <rect data-part="coat" x="34" y="33" width="32" height="3" />
      <circle cx="28" cy="24" r="10" />
      <circle cx="28" cy="24" r="2" />
      <path data-part="spark" d="M20 33 8 28M19 34 5 34M21 31 10 22" />
    </>
  ),
  abrade: (
    <>
      <Panel />
      <rect data-part="coat" x="6" y="33" width="60" height="3" />
      <rect x="24" y="24" width="22" height="8" rx="2" />
      <path data-part="way" d="M14 16h44M20 11l-6 5 6 5M52 11l6 5-6 5" />
    </>
  ),
  wipe: (
    <>
      <Panel />
      <path d="M22 35c0-10 6-13 12-12 8 1 12 5 10 12z" />
      <path data-part="way" d="M16 14h38M48 9l6 5-6 5" />
    </>
  ),
  flashOff: (
    <>
      <Panel />
      <path data-part="way" d="M14 31c-4-5 4-7 0-13M26 31c-4-5 4-7 0-13M38 31c-4-5 4-7 0-13" />
      <circle cx="56" cy="18" r="9" />
      <path d="M56 12v6l4 3" />
    </>
  ),
  dryFit: (
    <>
      <Panel y={34} width={44} />
      <Panel y={20} x={22} width={44} />
      <path data-part="way" d="M44 6v9M40 11l4 4 4-4" />
      <path d="M36 27v6" strokeDasharray="2 3" />
      <path d="M48 27v6" strokeDasharray="2 3" />
    </>
  ),
  skimCoat: (
    <>
      <Panel />
      <path data-part="glue" d="M6 34.500h34" strokeWidth="3" />
      <path d="M40 34 54 10l8 4-14 22z" />
      <path data-part="way" d="M12 24h16M23 20l5 4-5 4" />
    </>
  ),
  bead: (
    <>
      <Panel />
      <path data-part="glue" d="M6 36c0-9 34-9 36-1" />
      <circle cx="15" cy="33" r="1.500" />
      <circle cx="24" cy="32" r="1.500" />
      <circle cx="33" cy="33" r="1.500" />
      <path d="M42 29 48 8h10l-10 23z" />
    </>
  ),
  clamp: (
    <>
      <Panel y={20} />
      <path data-part="glue" d="M6 28h60" />
      <Panel y={30} />
      <path d="M14 4v12M10 12l4 4 4-4M36 4v12M32 12l4 4 4-4M58 4v12M54 12l4 4 4-4" />
      <path d="M14 46v-6M36 46v-6M58 46v-6" />
    </>
  ),
  slide: (
    <>
      <Panel y={36} width={48} />
      <path data-part="glue" d="M18 33h38" />
      <Panel y={25} x={18} width={48} />
      <path data-part="way" d="M8 16h26M13 12l-5 4 5 4M29 12l5 4-5 4" />
      <path d="M56 20V6M52 10l4-4 4 4" />
      <path data-part="no" d="M49 20 63 6" />
    </>
  ),
  scrape: (
    <>
      <Panel />
      <path data-part="glue" d="M32 35c2-6 6-6 8-3s6 2 8-1 8 0 10 4" />
      <path d="M34 34 12 20l4-6 20 12z" />
    </>
  ),
}

export function Lines({ of }: { readonly of: DrawingName }) {
  return LINES[of]
}
