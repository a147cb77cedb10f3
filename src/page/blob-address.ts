import { useEffect, useState } from "preact/hooks";

/** An address for bytes held by the page, given back when they change or are no longer shown. */
export function useBlobAddress(blob: Blob | undefined): string | undefined {
  const [address, setAddress] = useState<string | undefined>(undefined);
  useEffect(() => {
    if (blob === undefined) {
      setAddress(undefined);
      return;
    }
    const made = URL.createObjectURL(blob);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [blob]);
  return address;
}
