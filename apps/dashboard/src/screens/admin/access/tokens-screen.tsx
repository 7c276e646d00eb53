import { ROUTES } from '../../../api/contracts.ts'
import { Button, NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { KeyRound } from 'lucide-react'
import { useState } from 'react'
import { accessQueries } from '../../../api/queries/access.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay, useShops } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Page } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { NewSecret } from './new-secret.tsx'
import { TokenTable } from './token-table.tsx'

export function TokensScreen() {
  const tokens = useQuery(accessQueries.tokens())
  const [adding, { open, close }] = useDisclosure()
  const [secret, setSecret] = useState<string>()
  return (
    <Page
      title="Tokens"
      lede="For thermometers and other programs"
      actions={
        <Button leftSection={<KeyRound size={16} aria-hidden />} onClick={open}>
          Make token
        </Button>
      }
    >
      <AdminNav />
      {secret !== undefined && <NewSecret secret={secret} />}
      <Answered query={tokens} what="tokens">
        {({ items }) =>
          items.length === 0 ? <Empty title="No tokens yet." /> : <TokenTable tokens={items} />
        }
      </Answered>
      {adding && (
        <TokenDialog
          onClose={close}
          onMade={(made) => {
            setSecret(made)
            close()
          }}
        />
      )}
    </Page>
  )
}

const SCOPES = [
  { value: 'sensor', label: 'Sensor: sends temperatures' },
  { value: 'integration', label: 'Integration: reads everything, plans work' },
]

interface DialogProps {
  readonly onClose: () => void
  readonly onMade: (secret: string) => void
}

function TokenDialog({ onClose, onMade }: DialogProps) {
  const may = useMay()
  const shops = useShops().filter(({ id }) => may('manageChain', id))
  const isOfChain = may('manageChain', null)
  const form = useForm({
    initialValues: {
      name: '',
      scope: 'sensor' as 'sensor' | 'integration',
      shopId: isOfChain ? '' : (shops[0]?.id ?? ''),
    },
  })
  const add = useAction(ROUTES.addAccessToken, { topics: ['people'], onDone: ({ secret }) => onMade(secret) })
  const others = useFormReasons(form, add.error)
  const submit = form.onSubmit(({ name, scope, shopId }) =>
    add.mutate({ body: { name, scope, shopId: shopId === '' ? null : shopId } }),
  )
  return (
    <FormDialog
      title="Make token"
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Make"
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput
        label="Name"
        description="What uses it"
        required
        data-autofocus
        {...form.getInputProps('name')}
      />
      <NativeSelect label="May do" data={SCOPES} {...form.getInputProps('scope')} />
      <NativeSelect
        label="In"
        data={[
          ...(isOfChain ? [{ value: '', label: 'Every shop' }] : []),
          ...shops.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        {...form.getInputProps('shopId')}
      />
    </FormDialog>
  )
}
