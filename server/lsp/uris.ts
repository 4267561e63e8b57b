/** Addresses of files, compared as what they name: editors encode the same path in different ways. */

/** The address without escapes, with the drive letter of Windows in lower case and without a slash at the end. */
export function plainUri(uri: string): string {
  let plain = uri;
  try {
    plain = decodeURIComponent(uri);
  } catch {
    // A stray percent sign: the address is taken as it stands.
  }
  plain = plain.replace(
    /^(file:\/\/\/)([A-Z])(?=:)/u,
    (_all, scheme: string, drive: string) => scheme + drive.toLowerCase(),
  );
  return plain.endsWith("/") ? plain.slice(0, -1) : plain;
}

/** @returns the path below the root, or undefined when the address leads elsewhere */
export function pathBelow(plainRoot: string, uri: string): string | undefined {
  const plain = plainUri(uri);
  const lead = plainRoot.endsWith(":") ? plainRoot : `${plainRoot}/`;
  return plain.startsWith(lead) && plain.length > lead.length ? plain.slice(lead.length) : undefined;
}

/** The address of a path below a root. @param root as the editor wrote it */
export function uriBelow(root: string, path: string): string {
  const encoded = path.split("/").map(encodeURIComponent).join("/");
  return root.endsWith(":") || root.endsWith("/") ? root + encoded : `${root}/${encoded}`;
}

/** The folder of an address: all up to the last slash, or the scheme of an address without one. */
export function folderOf(uri: string): string {
  const slash = uri.lastIndexOf("/");
  return slash >= 0 ? uri.slice(0, slash) : uri.slice(0, uri.indexOf(":") + 1);
}
