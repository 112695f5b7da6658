//! The checks that need no compiler.

use crate::manifest;
use crate::run;
use std::path::{Path, PathBuf};
use std::{fs, io};

mod edges;
mod files;
mod handbook;
mod shelf;
mod sources;
mod unused;

/// The rooms of the core, lowest first. What they may not do is checked in [`sources`].
pub(crate) const CORE: [&str; 7] = ["exact", "model", "words", "motion", "working", "figure", "worked"];

/// A text file of the project.
#[derive(Clone, Debug)]
pub(crate) struct File {
    /// Its place below the folder of the workspace, with `/` between.
    pub(crate) path: String,
    pub(crate) text: String,
}

/// Runs all checks. `false` where one of them has something against the project.
pub(crate) fn command() -> Result<bool, String> {
    let root = run::root();
    let packages = manifest::packages()?;
    let mut sources = Vec::new();
    for package in &packages {
        sources.extend(read_below(&root, &package.folder, &["rs", "css", "js", "typ", "html"])?);
    }
    for warning in files::warnings(&sources) {
        println!("tidy: warning: {warning}");
    }
    let architecture = read(&root, "ARCHITECTURE.md")?;
    let questions = ["shelf", "tests/questions", "tests/refused"].map(|folder| names(&root.join(folder)));
    let [shelf, tests, refused] = questions;
    let checks: [(&str, Vec<String>); 8] = [
        ("each crate rests only on those below it", edges::check(&packages)),
        ("nothing is declared that is not used", unused::check(&packages, &sources)),
        ("the core does no I/O, no clocks, no floats", sources::check(&sources)),
        ("files are small and finished", files::check(&sources)),
        ("ARCHITECTURE.md names what there is", handbook::check(&architecture, &packages)),
        ("README.md has its commands", shelf::readme(&read(&root, "README.md")?, &read(&root, ".ci/run")?)),
        ("the shelf is full, each question with its answers", shelf::shelf(&shelf?)),
        ("each test question has what is expected", shelf::pairs(&tests?, &refused?)),
    ];
    for (what, wrong) in &checks {
        println!("tidy: {}: {what}", if wrong.is_empty() { "ok" } else { "NOT SO" });
        for complaint in wrong {
            println!("      {complaint}");
        }
    }
    Ok(checks.iter().all(|(_, wrong)| wrong.is_empty()))
}

fn read(root: &Path, path: &str) -> Result<String, String> {
    fs::read_to_string(root.join(path)).map_err(|why| format!("{path}: {why}"))
}

/// The names of the files in a folder, in order.
fn names(folder: &Path) -> Result<Vec<String>, String> {
    let listed = fs::read_dir(folder)
        .and_then(|entries| entries.map(|e| Ok(e?.file_name().to_string_lossy().into_owned())).collect());
    let mut names: Vec<String> = listed.map_err(|why: io::Error| format!("{}: {why}", folder.display()))?;
    names.sort();
    Ok(names)
}

/// All files with these endings in a folder and below it, apart from what others made (`vendor`).
fn read_below(root: &Path, folder: &str, endings: &[&str]) -> Result<Vec<File>, String> {
    let mut found = Vec::new();
    let mut folders: Vec<PathBuf> = vec![root.join(folder)];
    while let Some(folder) = folders.pop() {
        for name in names(&folder)? {
            let path = folder.join(&name);
            if path.is_dir() {
                if !["vendor", "target"].contains(&name.as_str()) {
                    folders.push(path);
                }
            } else if path.extension().is_some_and(|e| endings.iter().any(|wanted| e == *wanted)) {
                let below = path.strip_prefix(root).unwrap_or(&path).to_string_lossy().replace('\\', "/");
                let text = fs::read_to_string(&path).map_err(|why| format!("{below}: {why}"))?;
                found.push(File { path: below, text });
            }
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(found)
}

#[cfg(test)]
pub(crate) fn file(path: &str, text: &str) -> File {
    File { path: path.to_owned(), text: text.to_owned() }
}
