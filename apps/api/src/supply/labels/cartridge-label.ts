export interface CartridgeLabel {
  /** What the QR code carries. */
  readonly text: string
  readonly code: string
  readonly productName: string
  readonly lotNumber: string
  /** As it is printed on the cartridge. */
  readonly expiry: string
}
