/**
 * GS1's check digit (General Specifications, 7.9): modulo 10 over weights 3, 1, 3 … from the right.
 *
 * @param body Digits without the check digit.
 * @throws {RangeError} When `body` is empty or holds anything but digits.
 */
export function checkDigit(body: string): number {
  if (!/^\d+$/.test(body)) throw new RangeError(`'${body}' must be digits only`)
  let sum = 0
  for (let i = 0; i < body.length; i += 1) sum += Number(body[body.length - 1 - i]) * (i % 2 === 0 ? 3 : 1)
  return (10 - (sum % 10)) % 10
}

/** Whether the last digit of a number is its check digit. */
export function hasCheckDigit(digits: string): boolean {
  return /^\d{2,}$/.test(digits) && checkDigit(digits.slice(0, -1)) === Number(digits.at(-1))
}

/** A GTIN of 8, 12, 13 or 14 digits as 14 of them, or undefined when it is none: zeros in front keep the check digit. */
export function gtin14(digits: string): string | undefined {
  return [8, 12, 13, 14].includes(digits.length) && hasCheckDigit(digits)
    ? digits.padStart(14, '0')
    : undefined
}
