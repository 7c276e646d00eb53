import { ROUTES } from '../../api/contracts.ts'
import { Button, FileButton, Group, Textarea } from '@mantine/core'
import { useState } from 'react'
import type { Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Section, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { t } from '../../lib/reader.ts'

const COLUMNS =
  'number,vehicle,plate,vin,promisedAt,priority,joint,product,panelMaterial,panelThicknessMm,safetyClass,lengthMm,flangeWidthMm,beadDiameterMm,template'

/** Repair orders from a table: all of it is taken, or nothing. */
export function ImportSection({ shop }: { readonly shop: Shop }) {
  const [csv, setCsv] = useState('')
  const send = useAction(ROUTES.importRepairOrders, { topics: ['repairs'], onDone: () => setCsv('') })
  return (
    <Section title={t('plan-setup.repairOrdersFromATable')}>
      <Sheet padded>
        <p>{t('plan-setup.csvWithAHeaderLineThenALineForEach', { name: shop.name })}</p>
        <Textarea
          label={t('plan-setup.table')}
          placeholder={COLUMNS}
          autosize
          minRows={3}
          maxRows={12}
          value={csv}
          onChange={(event) => setCsv(event.currentTarget.value)}
        />
        <Group mt="sm" gap="xs">
          <FileButton
            accept=".csv,text/csv"
            onChange={(file) => {
              if (file) void file.text().then(setCsv)
            }}
          >
            {(props) => (
              <Button variant="default" {...props}>
                {t('plan-setup.fromAFile')}
              </Button>
            )}
          </FileButton>
          <Button
            loading={send.isPending}
            disabled={csv.trim() === ''}
            onClick={() => send.mutate({ params: { shopId: shop.id }, body: { csv } })}
          >
            {t('plan-setup.openTheRepairOrders')}
          </Button>
        </Group>
        <ProblemPanel error={send.error} />
        {send.data !== undefined && (
          <Mark tone="ready">
            {t('plan-setup.opened', { value: send.data.repairOrders.map(({ number }) => number).join(', ') })}
          </Mark>
        )}
      </Sheet>
    </Section>
  )
}
