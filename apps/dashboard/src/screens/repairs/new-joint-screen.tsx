import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { productQueries } from '../../api/queries/products.ts'
import { repairQueries } from '../../api/queries/repairs.ts'
import { Cautions } from '../../features/bonds/cautions.tsx'
import { Page } from '../../ui/page.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { JointForm } from './joint-form.tsx'
import { t } from '../../lib/reader.ts'

export function NewJointScreen() {
  const { repairOrderId } = useParams({ from: '/in/jobs/$repairOrderId/joints/new' })
  const job = useQuery(repairQueries.one(repairOrderId))
  const products = useQuery(productQueries.all())
  return (
    <Answered query={job} what={t('repairs.theRepairOrder')}>
      {(data) => (
        <Page
          title={t('repairs.addAJoint')}
          lede={`${data.number}, ${data.vehicle}`}
          narrow
          actions={
            <Link to="/jobs/$repairOrderId" params={{ repairOrderId }}>
              {t('repairs.backToTheJob')}
            </Link>
          }
        >
          <Answered query={products} what={t('repairs.products')}>
            {({ items }) => (
              <JointForm job={data} products={items.filter(({ retiredAt }) => retiredAt === null)} />
            )}
          </Answered>
          <Cautions about={['joint']} />
        </Page>
      )}
    </Answered>
  )
}
