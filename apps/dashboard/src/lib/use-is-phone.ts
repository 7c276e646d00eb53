import { useMediaQuery } from '@mantine/hooks'

/** Known before the first paint: nothing is laid out for a desk first and then once more for a phone. */
export function useIsPhone(): boolean {
  return useMediaQuery('(max-width: 48em)', undefined, { getInitialValueInEffect: false }) ?? false
}
