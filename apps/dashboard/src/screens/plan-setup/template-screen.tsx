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
import { t } from '../../lib/reader.ts'

/** Every step of a repair template, to change. */
export function TemplateScreen() {
  const { shop } = useOneShop()
  const { key } = useParams({ from: '/in/plan/setup/templates/$key' })
  const templates = useQuery({
    ...planningQueries.templates(shop?.id ?? ''),
    enabled: shop !== undefined,
  })
  if (shop === undefined) return <NoShop title={t('plan-setup.template')} />
  return (
    <Answered query={templates} what={t('plan-setup.theTemplate')}>
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
      <Page title={t('plan-setup.template')}>
        <Empty title={t('plan-setup.hasNoSuchTemplate', { name: shop.name })}>
          <Link to="/plan/setup">{t('plan-setup.backToHoursAndTemplates')}</Link>
        </Empty>
      </Page>
    )
  return (
    <Page
      title={t('plan-setup.template2', { name: first.name })}
      lede={
        <>
          {first.isOwn
            ? t('plan-setup.sOwn', { name: shop.name })
            : t('plan-setup.comesWithTheProgramTheMinutesAre')}{' '}
          {t('plan-setup.jobsStayAsTheyAre')}{' '}
          <Link to="/plan/setup">{t('plan-setup.backToHoursAndTemplates')}</Link>
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
      label={template.isBuiltIn ? t('plan-setup.backToThePrograms') : t('plan-setup.remove2')}
      sentence={t('plan-setup.theStepsAndMinutesOfAreLostJobsThat', { name: shop.name })}
      yes={template.isBuiltIn ? t('plan-setup.dropOurs') : t('plan-setup.removeIt')}
      no={t('plan-setup.keepIt')}
      isPending={remove.isPending}
      error={remove.error}
      onYes={() => remove.mutate({ params: { shopId: shop.id, key: template.key } })}
    />
  )
}
