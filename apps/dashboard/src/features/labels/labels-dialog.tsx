import { Button, Group, Modal, NativeSelect, NumberInput, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { LabelSheet } from '@clampclock/contracts'
import { ROUTES } from '../../api/contracts.ts'
import { stockQueries } from '../../api/queries/stock.ts'
import { urlOf } from '../../api/url.ts'
import { Answered } from '../../ui/waiting.tsx'
import { sheetName } from './sheet-name.ts'

const SHEET_KEY = 'clampclock.labelSheet'

interface DialogProps extends Omit<SheetProps, 'sheets'> {
  readonly count: number | undefined
}

/** Which sheet lies in the printer, and where its first free place is. */
export function LabelsDialog({ what, shelves, count, onClose }: DialogProps) {
  const sheets = useQuery(stockQueries.labelSheets())
  return (
    <Modal
      opened
      onClose={onClose}
      title={count === undefined ? 'Print labels' : count === 1 ? 'Print the label' : `Print ${count} labels`}
    >
      <Answered query={sheets} what="the label sheets">
        {({ items }) => <SheetForm what={what} shelves={shelves} sheets={items} onClose={onClose} />}
      </Answered>
    </Modal>
  )
}

interface SheetProps {
  readonly what: Record<string, string>
  readonly shelves: readonly { readonly id: string; readonly name: string }[]
  readonly sheets: readonly LabelSheet[]
  readonly onClose: () => void
}

function SheetForm({ what, shelves, sheets, onClose }: SheetProps) {
  const [shelf, setShelf] = useState(shelves[0]?.id)
  const [chosen, setChosen] = useState(localStorage.getItem(SHEET_KEY) ?? 'a4-3x8')
  const [start, setStart] = useState<number | string>(1)
  const sheet = sheets.find(({ id }) => id === chosen) ?? sheets[0]!
  const places = sheet.columns * sheet.rows
  const first = Math.min(Math.max(1, Number(start) || 1), places)
  return (
    <Stack gap="md">
      {shelf !== undefined && (
        <NativeSelect
          label="Everything on the shelf"
          value={shelf}
          data={shelves.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={(event) => setShelf(event.currentTarget.value)}
        />
      )}
      <NativeSelect
        label="Label sheet in the printer"
        value={sheet.id}
        data={sheets.map((each) => ({ value: each.id, label: sheetName(each) }))}
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
          href={urlOf(ROUTES.getLabels.path, undefined, {
            ...what,
            locationId: shelf,
            sheet: sheet.id,
            start: first,
          })}
          target="_blank"
          rel="noreferrer"
          onClick={onClose}
        >
          Open the PDF
        </Button>
      </Group>
    </Stack>
  )
}
