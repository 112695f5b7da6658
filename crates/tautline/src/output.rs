//! Writes what comes out: whole files or none, and standard output without a fuss when nobody reads on.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Writes a file so that there is never half of one: beside its place first, then moved into it.
///
/// # Errors
/// The folder is not there, or the file cannot be written.
pub(crate) fn file(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // A link keeps pointing where it does; what it points at is replaced.
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    match fs::metadata(&path) {
        Ok(there) if there.is_dir() => return Err(io::Error::other("this is a folder")),
        // A pipe or a device is written to, not replaced.
        Ok(there) if !there.is_file() => return File::options().write(true).open(&path)?.write_all(bytes),
        _ => {}
    }
    let mut draft = draft(folder_of(&path))?;
    draft.write_all(bytes)?;
    draft.persist(&path).map_err(|e| e.error)?;
    Ok(())
}

fn folder_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder.to_owned(),
        _ => PathBuf::from("."),
    }
}

/// A file with no name of its own yet, with the rights that a new file usually has.
fn draft(folder: PathBuf) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".tautline-");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder)
}

/// Writes to standard output. A reader that has gone away is no error.
///
/// # Errors
/// Any other trouble with writing.
pub(crate) fn print(text: &str) -> io::Result<()> {
    quiet(io::stdout().lock(), text)
}

/// Writes to standard error, as far as it goes.
pub(crate) fn complain(text: &str) {
    let _ = quiet(io::stderr().lock(), text);
}

fn quiet(mut to: impl Write, text: &str) -> io::Result<()> {
    match to.write_all(text.as_bytes()).and_then(|()| to.flush()) {
        Err(gone) if gone.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        done => done,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_whole_and_leaves_nothing_behind() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("page.html");
        file(&path, b"first").unwrap();
        file(&path, b"second").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"second");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "no draft stays");
        assert!(file(folder.path(), b"").is_err(), "a folder is not overwritten");
        assert!(file(&folder.path().join("no/such/place"), b"").is_err());
    }
}
