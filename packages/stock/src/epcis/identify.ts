import type { TracedLot } from './facts.ts'

/** Where our own things are addressed: the public address of the service, where there is one. */
export interface Addresses {
  readonly publicUrl: string | undefined
}

/** A lot as GS1 Digital Link knows it (GTIN and batch); as a UUID where no GTIN is known. */
export function lotUri({ gtin, lotNumber, id }: TracedLot): string {
  return gtin === null
    ? `urn:uuid:${id}`
    : `https://id.gs1.org/01/${gtin}/10/${encodeURIComponent(lotNumber)}`
}

/** A cartridge by our own label: the maker gives single cartridges no serial number that we could use. */
export function cartridgeUri(
  { id, code }: { readonly id: string; readonly code: string },
  { publicUrl }: Addresses,
): string {
  return publicUrl === undefined ? `urn:uuid:${id}` : `${publicUrl.replace(/\/+$/, '')}/c/${code}`
}

export function uuidUri(id: string): string {
  return `urn:uuid:${id}`
}
