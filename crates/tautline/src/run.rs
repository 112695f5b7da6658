//! What each command does, and the exit status that it ends with.

use crate::input::{self, Input};
use crate::options::{Command, DeskOptions, FigureOptions, Options, Which, WorkOptions};
use crate::{json, output, report, sheet, text};
use figure::Figure;
use model::{Diagnostic, Severity};
use std::fmt::Display;
use std::io::{self, IsTerminal};
use std::path::Path;
use std::process::ExitCode;
use worked::{Settings, Worked};

/// Every part answered.
const ANSWERED: u8 = 0;
/// Not answered; the reasons have been told.
const REFUSED: u8 = 1;
/// The command is misused, or a file cannot be read or written.
const MISUSED: u8 = 2;

/// What stops a command: a sentence for the person who gave it.
type Stopped = String;

/// Does what the command line says.
pub(crate) fn run(options: Options) -> ExitCode {
    let done = match options.command {
        None => open_desk(options.desk),
        Some(Command::Work(options)) => work(&options),
        Some(Command::Figure(options)) => draw(&options),
    };
    match done {
        Ok(status) => ExitCode::from(status),
        Err(why) => {
            output::complain(&format!("tautline: {why}\n"));
            ExitCode::from(MISUSED)
        }
    }
}

fn open_desk(options: DeskOptions) -> Result<u8, Stopped> {
    desk::run(options.desk()).map_err(|e| e.to_string())?;
    Ok(ANSWERED)
}

fn work(options: &WorkOptions) -> Result<u8, Stopped> {
    let mut settings = Settings { ignored: options.ignore.clone(), ..Settings::default() };
    settings.working.figures = options.figures;
    let question = match taken_in(&options.file)? {
        Input::Text(question) => question,
        Input::Refused(why) => {
            if options.json {
                print(&json::refused(&why))?;
            }
            complain(&options.file, "", [&why]);
            return Ok(REFUSED);
        }
    };
    let worked = worked::work(&question, &settings).mended(&settings);
    let answered = worked.answered();
    let written = write_pages(options, &worked)?;
    if options.json {
        print(&json::worked(&worked))?;
    } else if answered && written.is_empty() {
        print(&text::worked(&worked, colour(&io::stdout())))?;
    } else {
        print(&written)?;
    }
    if !answered {
        complain(&options.file, &question, errors(&worked));
    }
    Ok(if answered { ANSWERED } else { REFUSED })
}

/// Writes the pages that are wanted, and says which.
fn write_pages(options: &WorkOptions, worked: &Worked) -> Result<String, Stopped> {
    let mut written = String::new();
    if options.html.is_none() && options.pdf.is_none() {
        return Ok(written);
    }
    let page = paper::page::document(worked);
    if let Some(path) = &options.html {
        write(path, paper::html_page(&page).as_bytes())?;
        written.push_str(&format!("Wrote {}\n", path.display()));
    }
    if let Some(path) = &options.pdf {
        let pdf = paper::pdf(&page).map_err(|e| e.to_string())?;
        write(path, &pdf)?;
        written.push_str(&format!("Wrote {}\n", path.display()));
    }
    Ok(written)
}

fn draw(options: &FigureOptions) -> Result<u8, Stopped> {
    let question = match taken_in(&options.file)? {
        Input::Text(question) => question,
        Input::Refused(why) => {
            complain(&options.file, "", [&why]);
            return Ok(REFUSED);
        }
    };
    let worked = worked::work(&question, &Settings::default());
    if !worked.answered() {
        complain(&options.file, &question, errors(&worked));
        return Ok(REFUSED);
    }
    let scene = worked.scene().into_iter().filter(|_| options.which != Which::Forces);
    let forces = worked.force_diagrams().iter().filter(|_| options.which != Which::Scene);
    let figures: Vec<&Figure> = scene.chain(forces).collect();
    match &options.output {
        None => print(&sheet::sheet(&figures))?,
        Some(place) if is_folder(place) => {
            std::fs::create_dir_all(place).map_err(|e| trouble("make the folder", place, e))?;
            for (n, figure) in figures.iter().enumerate() {
                write(&place.join(sheet::file_name(n + 1, figure)), figure.svg.as_bytes())?;
            }
        }
        Some(place) => write(place, sheet::sheet(&figures).as_bytes())?,
    }
    Ok(ANSWERED)
}

/// A folder that is there, or a name that ends as a folder's does.
fn is_folder(place: &Path) -> bool {
    place.is_dir() || place.to_string_lossy().ends_with(std::path::is_separator)
}

fn taken_in(file: &Path) -> Result<Input, Stopped> {
    input::read(file).map_err(|e| trouble("read", file, e))
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Stopped> {
    output::file(path, bytes).map_err(|e| trouble("write", path, e))
}

fn print(text: &str) -> Result<(), Stopped> {
    output::print(text).map_err(|e| format!("cannot write to standard output: {e}"))
}

fn trouble(what: &str, path: &Path, why: impl Display) -> Stopped {
    format!("cannot {what} {}: {why}", path.display())
}

fn errors(worked: &Worked) -> impl Iterator<Item = &Diagnostic> {
    worked.diagnostics.iter().filter(|d| d.severity == Severity::Error)
}

fn complain<'a>(file: &Path, question: &str, diagnostics: impl IntoIterator<Item = &'a Diagnostic>) {
    let name = if file == Path::new("-") { "the question".to_owned() } else { file.display().to_string() };
    output::complain(&report::report(&name, question, diagnostics, colour(&io::stderr())));
}

/// Colour only for a terminal whose owner has not asked for none.
fn colour(to: &impl IsTerminal) -> bool {
    let refused = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|v| v == "dumb");
    to.is_terminal() && !refused && !dumb
}
