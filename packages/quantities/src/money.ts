/** Whole hundredths of a currency (ISO 4217), as people write it: '$1,234.50'. */
export function formatMoney(cents: number, currency: string): string {
  return new Intl.NumberFormat('en', { style: 'currency', currency }).format(cents / 100)
}
