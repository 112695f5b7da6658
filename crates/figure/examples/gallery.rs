//! Writes all figures of a set of situations into a directory, to be looked at:
//! `cargo run -p figure --example gallery -- DIRECTORY`.

#[path = "../tests/support/mod.rs"]
mod support;

use std::io::Write;

fn main() -> std::io::Result<()> {
    let Some(directory) = std::env::args().nth(1) else {
        return writeln!(std::io::stderr(), "give a directory to write to");
    };
    std::fs::create_dir_all(&directory)?;
    for (name, situation) in support::everything() {
        let mut figures = Vec::new();
        for stage in situation.stage_ids() {
            match motion::solve(&situation, stage, 0) {
                Ok(solved) => figures.extend(figure::all(&situation, &solved)),
                Err(why) => writeln!(std::io::stdout(), "{name}, stage {}: not solved: {why:?}", stage.0)?,
            }
        }
        if figures.is_empty() {
            figures.push(figure::scene(&situation, None));
        }
        for (i, figure) in figures.iter().enumerate() {
            std::fs::write(format!("{directory}/{name}-{i}.svg"), &figure.svg)?;
            for overlap in figure::overlaps(figure) {
                writeln!(std::io::stdout(), "{name}-{i}: {overlap}")?;
            }
        }
    }
    Ok(())
}
