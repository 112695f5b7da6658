//! Lists the questions of the shelf, so that the installed program carries them.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let here = PathBuf::from(variable("CARGO_MANIFEST_DIR")?);
    let shelf = here.join("../../shelf");
    println!("cargo::rerun-if-changed={}", shelf.display());
    let mut list = String::from("&[\n");
    for path in questions(&shelf)? {
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        let path = path.canonicalize()?;
        let _ = writeln!(list, "    ({name:?}, include_str!({path:?})),");
        println!("cargo::rerun-if-changed={}", path.display());
    }
    list.push_str("]\n");
    fs::write(Path::new(&variable("OUT_DIR")?).join("shelf.rs"), list)
}

fn questions(shelf: &Path) -> io::Result<Vec<PathBuf>> {
    if !shelf.is_dir() {
        return Ok(Vec::new());
    }
    let mut paths = fs::read_dir(shelf)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<_>>>()?;
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "txt"));
    paths.sort();
    Ok(paths)
}

fn variable(name: &str) -> io::Result<String> {
    env::var(name).map_err(io::Error::other)
}
