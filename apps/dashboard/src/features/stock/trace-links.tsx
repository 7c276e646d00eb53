import { ROUTES } from '../../api/contracts.ts'
import { Anchor, Group } from '@mantine/core'
import { urlOf } from '../../api/url.ts'
import { t } from '../../lib/reader.ts'

type Props = { readonly lotId: string } | { readonly repairOrderId: string }

/** What is known of a lot's life, or of a vehicle's adhesives, to take along: a table, or events of the open standard EPCIS 2.0. */
export function TraceLinks(what: Props) {
  const [table, events] =
    'lotId' in what
      ? [urlOf(ROUTES.getLotLifeCsv.path, what, undefined), urlOf(ROUTES.getLotEvents.path, what, undefined)]
      : [
          urlOf(ROUTES.getVehicleAdhesivesCsv.path, what, undefined),
          urlOf(ROUTES.getVehicleEvents.path, what, undefined),
        ]
  return (
    <Group gap="md" my="xs">
      <Anchor href={table} download>
        {t('features.asATableCsv')}
      </Anchor>
      <Anchor href={events} download>
        {t('features.asEpcis20Events')}
      </Anchor>
    </Group>
  )
}
