import { Button, Group, Modal, NativeSelect, NumberInput, Stack } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { Printer } from 'lucide-react'
import { useState } from 'react'
import { ROUTES } from '@clampclock/contracts'
import { stockQueries } from '../../api/queries/stock.ts'
import { urlOf } from '../../api/url.ts'
import { sheetName } from './sheet-name.ts'

interface Props {
  /** What is printed: a delivery, a lot, a shelf or one cartridge. */
  readonly what: Record<string, string>
  readonly label?: string
  readonly count?: number | undefined
}

const SHEET_KEY = 'clampclock.labelSheet'

/** Prints labels: which sheet lies in the printer, and where its first free place is. */
export function LabelsButton({ what, label = 'Print labels', count }: Props) {
  const [opened, { open, close }] = useDisclosure()
  return (
    <>
      <Button variant="default" leftSection={<Printer size={16} aria-hidden />} onClick={open}>
        {label}
      </Button>
      {opened && <LabelsDialog what={what} count={count} onClose={close} />}
    </>
  )
}

function LabelsDialog({
  what,
  count,
  onClose,
}: {
  readonly what: Record<string, string>
  readonly count: number | undefined
  readonly onClose: () => void
}) {
  const sheets = useQuery(stockQueries.labelSheets())
  const [chosen, setChosen] = useState(localStorage.getItem(SHEET_KEY) ?? 'a4-3x8')
  const [start, setStart] = useState<number | string>(1)
  const items = sheets.data?.items ?? []
  const sheet = items.find(({ id }) => id === chosen) ?? items[0]
  const places = sheet === undefined ? 1 : sheet.columns * sheet.rows
  const first = Math.min(Math.max(1, Number(start) || 1), places)
  const address = urlOf(ROUTES.getLabels.path, undefined, { ...what, sheet: sheet?.id, start: first })
  return (
    <Modal
      opened
      onClose={onClose}
      title={count === undefined ? 'Print labels' : count === 1 ? 'Print the label' : `Print ${count} labels`}
    >
      <Stack gap="md">
        <NativeSelect
          label="Label sheet in the printer"
          value={sheet?.id ?? ''}
          data={items.map((each) => ({ value: each.id, label: sheetName(each) }))}
          onChange={(event) => {
            setChosen(event.currentTarget.value)
            localStorage.setItem(SHEET_KEY, event.currentTarget.value)
          }}
        />
        {places > 1 && (
          <NumberInput
            label="First free label on the sheet"
            description={`1 to ${places}, counted row by row from the top left`}
            min={1}
            max={places}
            value={start}
            onChange={setStart}
          />
        )}
        <p style={{ margin: 0 }}>Print at 100 %, without ‘fit to page’: the sizes are in mm.</p>
        <Group justify="flex-end">
          <Button variant="default" onClick={onClose}>
            Back
          </Button>
          <Button
            component="a"
            href={address}
            target="_blank"
            rel="noreferrer"
            onClick={onClose}
            disabled={sheet === undefined}
          >
            Open the PDF
          </Button>
        </Group>
      </Stack>
    </Modal>
  )
}
