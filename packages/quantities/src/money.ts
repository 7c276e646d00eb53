/** Whole hundredths of a currency (ISO 4217), as people of a language (BCP 47) write it: '$1,234.50', '1234,50 US$'. */
export function formatMoney(cents: number, currency: string, language = 'en'): string {
  return new Intl.NumberFormat(language, { style: 'currency', currency }).format(cents / 100)
}
