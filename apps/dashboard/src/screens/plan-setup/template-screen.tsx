import { ROUTES } from '../../api/contracts.ts'
import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useParams } from '@tanstack/react-router'
import { useState } from 'react'
import { planningQueries } from '../../api/queries/planning.ts'
import type { RepairTemplate, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { useOneShop } from '../../lib/shop-scope.ts'
import { AskOnceMore } from '../../ui/dialogs/ask-once-more.tsx'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { TemplateForm } from './template-form.tsx'

/** Every step of a repair template, to change. */
export function TemplateScreen() {
  const { shop } = useOneShop()
  const { key } = useParams({ from: '/in/plan/setup/templates/$key' })
  const templates = useQuery({
    ...planningQueries.templates(shop?.id ?? ''),
    enabled: shop !== undefined,
  })
  if (shop === undefined) return <NoShop title="Template" />
  return (
    <Answered query={templates} what="the template">
      {({ items }) => (
        <EditTemplate
          key={`${shop.id} ${key}`}
          shop={shop}
          present={items.find((each) => each.key === key)}
        />
      )}
    </Answered>
  )
}

interface EditProps {
  readonly shop: Shop
  readonly present: RepairTemplate | undefined
}

function EditTemplate({ shop, present }: EditProps) {
  const mayPlan = useMay()('planWork', shop.id)
  // What one began with stays, whoever else changes or removes it meanwhile.
  const [first] = useState(present)
  if (first === undefined)
    return (
      <Page title="Template">
        <Empty title={`${shop.name} has no such template.`}>
          <Link to="/plan/setup">Back to hours and templates</Link>
        </Empty>
      </Page>
    )
  return (
    <Page
      title={`Template: ${first.name}`}
      lede={
        <>
          {first.isOwn
            ? `${shop.name}’s own.`
            : 'Comes with the program; the minutes are common practice, no source. What you save is the shop’s own.'}{' '}
          Jobs that have their operations already stay as they are.{' '}
          <Link to="/plan/setup">Back to hours and templates</Link>
        </>
      }
    >
      <TemplateForm
        shop={shop}
        mayPlan={mayPlan}
        start={first}
        existing={first}
        taken={[]}
        presentVersion={present?.version ?? 0}
      >
        {first.isOwn && <DropTemplate shop={shop} template={first} />}
      </TemplateForm>
    </Page>
  )
}

interface DropProps {
  readonly shop: Shop
  readonly template: RepairTemplate
}

function DropTemplate({ shop, template }: DropProps) {
  const navigate = useNavigate()
  const remove = useAction(ROUTES.removeRepairTemplate, {
    topics: ['shops'],
    onDone: () => void navigate({ to: '/plan/setup', ignoreBlocker: true }),
  })
  return (
    <AskOnceMore
      label={template.isBuiltIn ? 'Back to the program’s' : 'Remove'}
      sentence={`The steps and minutes of ${shop.name} are lost. Jobs that have their operations already keep them.`}
      yes={template.isBuiltIn ? 'Drop ours' : 'Remove it'}
      no="Keep it"
      isPending={remove.isPending}
      error={remove.error}
      onYes={() => remove.mutate({ params: { shopId: shop.id, key: template.key } })}
    />
  )
}
