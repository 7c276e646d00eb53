import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { Check, Pencil, Plus } from 'lucide-react'
import { useRef } from 'react'
import { planningQueries } from '../../../api/queries/planning.ts'
import type { RepairOrderDetail } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { FromTemplate } from './from-template.tsx'
import { chainsOf } from './operation-changes.ts'
import { OperationList } from './operation-list.tsx'
import styles from './operations.module.css'
import { lazily } from '../../../ui/lazily.tsx'
import { reader, t } from '../../../lib/reader.ts'

const AddOperation = lazily(async () => (await import('./add-operation.tsx')).AddOperation)

/** What is to be done on the vehicle, in order: given by templates, and changed where this vehicle needs something else. */
export function Operations({ job }: { readonly job: RepairOrderDetail }) {
  const operations = useQuery(planningQueries.operations(job.id))
  const mayPlan = useMay()('planWork', job.shopId)
  const mayChange = mayPlan && job.state === 'open'
  const unit = reader().temperature
  // Most who come here want to read it: forty buttons between the lines would be in their way.
  const [isChanging, changing] = useDisclosure(false)
  const adds = useRef<HTMLButtonElement>(null)
  const [isAdding, { open, close }] = useDisclosure(false, { onClose: () => adds.current?.focus() })
  return (
    <Section title={t('job.operations2')}>
      <Answered query={operations} what={t('job.operations3')}>
        {({ items, isPlanOutdated }) => (
          <>
            {isPlanOutdated && (
              <output className={styles['outdated']}>
                <Mark tone="warning">{t('job.thePublishedPlanHasThisVehicleAsIt')}</Mark>{' '}
                {mayPlan ? (
                  <Link to="/plan" search={{ shop: job.shopId }}>
                    {t('job.planAgain')}
                  </Link>
                ) : (
                  t('job.theSchedulerPlansItAgain')
                )}
              </output>
            )}
            {items.length === 0 && (
              <Empty title={t('job.noOperationsYet')}>{t('job.thePlanNeedsThemATemplateGivesAJoint')}</Empty>
            )}
            {mayChange && items.length > 0 && (
              <Button
                mb="sm"
                variant="default"
                leftSection={isChanging ? <Check size={16} aria-hidden /> : <Pencil size={16} aria-hidden />}
                onClick={changing.toggle}
              >
                {isChanging ? t('job.thatIsAll') : t('job.changeOperations')}
              </Button>
            )}
            {chainsOf(items).map(({ jointId, name, chain }) => (
              <OperationList
                key={jointId}
                name={name}
                chain={chain}
                unit={unit}
                mayChange={mayChange && isChanging}
              />
            ))}
            {mayChange && (
              <>
                <FromTemplate job={job} operations={items} />
                <Button
                  ref={adds}
                  mt="sm"
                  variant="default"
                  leftSection={<Plus size={16} aria-hidden />}
                  onClick={open}
                >
                  {t('job.addOneOperation')}
                </Button>
                {isAdding && <AddOperation job={job} operations={items} unit={unit} onClose={close} />}
              </>
            )}
          </>
        )}
      </Answered>
    </Section>
  )
}
