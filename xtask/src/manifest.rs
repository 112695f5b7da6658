//! The crates of the workspace and what they rest on, as cargo tells it.

use crate::run;
use serde_json::Value;

/// How one crate names another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// In the program.
    Normal,
    /// In its tests and measurements only.
    Test,
    /// While it is built.
    Build,
}

/// One dependency of a crate.
#[derive(Clone, Debug)]
pub(crate) struct Dependency {
    pub(crate) name: String,
    pub(crate) kind: Kind,
    /// Is it a crate of this workspace?
    pub(crate) ours: bool,
}

/// One crate of the workspace.
#[derive(Clone, Debug)]
pub(crate) struct Package {
    pub(crate) name: String,
    /// Its folder below the folder of the workspace, such as `crates/exact`.
    pub(crate) folder: String,
    pub(crate) dependencies: Vec<Dependency>,
}

/// The crates of the workspace, by name.
pub(crate) fn packages() -> Result<Vec<Package>, String> {
    let text =
        run::output(&mut run::cargo(&["metadata", "--format-version", "1", "--no-deps", "--offline"]))?;
    read(&text)
}

/// Reads what `cargo metadata --no-deps` prints.
pub(crate) fn read(text: &str) -> Result<Vec<Package>, String> {
    let metadata: Value = serde_json::from_str(text).map_err(|why| format!("cargo metadata: {why}"))?;
    let root = string(&metadata, "workspace_root");
    let mut packages: Vec<Package> = list(&metadata, "packages").iter().map(|p| package(p, &root)).collect();
    packages.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(packages)
}

fn package(value: &Value, root: &str) -> Package {
    let manifest = string(value, "manifest_path").replace('\\', "/");
    let folder = manifest.strip_suffix("/Cargo.toml").unwrap_or(&manifest);
    let folder = folder.strip_prefix(&root.replace('\\', "/")).unwrap_or(folder).trim_start_matches('/');
    Package {
        name: string(value, "name"),
        folder: folder.to_owned(),
        dependencies: list(value, "dependencies").iter().map(dependency).collect(),
    }
}

fn dependency(value: &Value) -> Dependency {
    let kind = match value.get("kind").and_then(Value::as_str) {
        Some("dev") => Kind::Test,
        Some("build") => Kind::Build,
        _ => Kind::Normal,
    };
    // A crate of the workspace has a path and no source.
    let ours = value.get("source").is_none_or(Value::is_null) && value.get("path").is_some();
    Dependency { name: string(value, "name"), kind, ours }
}

fn string(value: &Value, key: &str) -> String {
    value.get(key).and_then(Value::as_str).unwrap_or_default().to_owned()
}

fn list<'v>(value: &'v Value, key: &str) -> &'v [Value] {
    value.get(key).and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cargo_tells_is_read() {
        let text = r#"{"workspace_root": "/quay", "packages": [{"name": "figure", "manifest_path": "/quay/crates/figure/Cargo.toml",
            "dependencies": [{"name": "model", "kind": null, "source": null, "path": "/quay/crates/model"},
                             {"name": "insta", "kind": "dev", "source": "registry+somewhere"}]}]}"#;
        let packages = read(text).unwrap();
        assert_eq!((packages[0].name.as_str(), packages[0].folder.as_str()), ("figure", "crates/figure"));
        let [model, insta] = packages[0].dependencies.as_slice() else { panic!("two dependencies are read") };
        assert!(model.ours && model.kind == Kind::Normal);
        assert!(!insta.ours && insta.kind == Kind::Test);
    }
}
