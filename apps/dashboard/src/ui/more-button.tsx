import { Button } from '@mantine/core'
import { t } from '../lib/reader.ts'

interface Props {
  readonly query: {
    readonly hasNextPage: boolean
    readonly isFetchingNextPage: boolean
    readonly fetchNextPage: () => unknown
  }
}

/** The next page of a list, where there is one. */
export function MoreButton({ query }: Props) {
  if (!query.hasNextPage) return null
  return (
    <Button
      mt="md"
      variant="default"
      loading={query.isFetchingNextPage}
      onClick={() => void query.fetchNextPage()}
    >
      {t('ui.showMore')}
    </Button>
  )
}
