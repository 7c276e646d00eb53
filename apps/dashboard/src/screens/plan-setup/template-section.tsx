import { ROUTES } from '../../api/contracts.ts'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { planningQueries } from '../../api/queries/planning.ts'
import type { RepairTemplate, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { minutesOfPeople } from './template-steps.ts'
import { t } from '../../lib/reader.ts'

/** What each kind of repair takes, with the shop's own steps and minutes. */
export function TemplateSection({ shop, mayPlan }: { readonly shop: Shop; readonly mayPlan: boolean }) {
  const templates = useQuery(planningQueries.templates(shop.id))
  const set = useAction(ROUTES.setRepairTemplate, { topics: ['shops'] })
  const columns: readonly Column<RepairTemplate>[] = [
    {
      head: 'plan-setup.template',
      cell: ({ key, name, isSetAside }) => (
        <>
          <Link to="/plan/setup/templates/$key" params={{ key }}>
            {name}
          </Link>
          {isSetAside && (
            <>
              {' '}
              <Mark tone="quiet">{t('plan-setup.setAside')}</Mark>
            </>
          )}
        </>
      ),
    },
    { head: 'plan-setup.steps', number: true, cell: ({ steps }) => steps.length },
    {
      head: 'plan-setup.workOfPeople',
      number: true,
      cell: ({ steps }) => t('plan-setup.min', { steps: minutesOfPeople(steps) }),
    },
    {
      head: 'plan-setup.minutesFrom',
      cell: ({ isOwn }) => (isOwn ? t('plan-setup.theShop2') : t('plan-setup.theProgram')),
    },
    ...(mayPlan
      ? [
          {
            head: 'plan-setup.change' as const,
            cell: ({ key, name, steps, isSetAside, version }: RepairTemplate) => (
              <Group gap="xs" wrap="nowrap">
                <Button
                  size="xs"
                  variant="default"
                  aria-label={t('plan-setup.copy2', { name })}
                  renderRoot={(props) => <Link {...props} to="/plan/setup/new" search={{ from: key }} />}
                >
                  {t('plan-setup.copy')}
                </Button>
                <Button
                  size="xs"
                  variant="default"
                  aria-label={
                    isSetAside ? t('plan-setup.useAgain', { name }) : t('plan-setup.setAside2', { name })
                  }
                  onClick={() =>
                    set.mutate({
                      params: { shopId: shop.id, key },
                      ifMatch: version,
                      body: { name, steps, isSetAside: !isSetAside },
                    })
                  }
                >
                  {isSetAside ? t('plan-setup.useAgain2') : t('plan-setup.setAside')}
                </Button>
              </Group>
            ),
          },
        ]
      : []),
  ]
  return (
    <Section title={t('plan-setup.repairTemplates')}>
      <p>{t('plan-setup.minutesFromTheProgramAreCommon')}</p>
      {mayPlan && (
        <Group mb="xs">
          <Button
            variant="default"
            renderRoot={(props) => <Link {...props} to="/plan/setup/new" search={{}} />}
          >
            {t('plan-setup.newTemplate')}
          </Button>
        </Group>
      )}
      <ProblemPanel error={set.error} />
      <Answered query={templates} what={t('plan-setup.templates')}>
        {({ items }) => (
          <Table
            caption={t('plan-setup.repairTemplates')}
            columns={columns}
            rows={items}
            rowKey={({ key }) => key}
          />
        )}
      </Answered>
    </Section>
  )
}
