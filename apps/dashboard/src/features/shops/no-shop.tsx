import { Link } from '@tanstack/react-router'
import { useMay } from '../../api/use-me.ts'
import { Page } from '../../ui/page.tsx'
import { Empty } from '../../ui/waiting.tsx'

/** For every screen about a shop while there is none to see. */
export function NoShop({ title }: { readonly title: string }) {
  const mayAdd = useMay()('manageChain', null)
  return (
    <Page title={title}>
      {mayAdd ? (
        <Empty title="No shop yet." action={<Link to="/admin/shops">Add the first shop</Link>}>
          Bays, stock and schedules belong to a shop.
        </Empty>
      ) : (
        <Empty title="You see no shop yet.">An owner gives you a role in one.</Empty>
      )}
    </Page>
  )
}
