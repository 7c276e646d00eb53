/** Crockford's base 32: no I, L, O or U, so that nobody misreads a label. */
export const CODE_LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

/** What our own labels' QR codes lead to: this, and the code. The dashboard has a page there. */
const PATH = '/c/'

const HALF = `[${CODE_LETTERS}ILO]{4}`
const TYPED = new RegExp(`^(${HALF})[- ]?(${HALF})$`)
const IN_ADDRESS = new RegExp(`^HTTPS?://[^/?#\\s]+/(?:[^?#\\s]*/)?C/(${HALF})-(${HALF})/?$`)

/**
 * The code of a cartridge's own label, `4F7K-92QX`, from what was scanned (an address or the code) or typed by hand:
 * small letters, a missing hyphen, and I, L or O for 1 and 0 are taken, as Crockford says.
 *
 * @returns Undefined when it is no label of ours. Eight digits without a hyphen are none: they may be a GTIN.
 */
export function readOwnLabel(scanned: string): string | undefined {
  const text = scanned.trim().toUpperCase()
  if (/^\d{8}$/.test(text)) return undefined
  const match = TYPED.exec(text) ?? IN_ADDRESS.exec(text)
  if (!match) return undefined
  const [, left = '', right = ''] = match
  return `${plain(left)}-${plain(right)}`
}

/** What a cartridge's QR code carries: an address that a phone's camera opens, or the bare code where none is known. */
export function ownLabelText(code: string, publicUrl: string | undefined): string {
  return publicUrl === undefined ? code : `${publicUrl.replace(/\/+$/, '')}${PATH}${code}`
}

function plain(letters: string): string {
  return letters.replaceAll(/[IL]/g, '1').replaceAll('O', '0')
}
