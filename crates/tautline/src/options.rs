//! The command line, as it is written and as `--help` explains it.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  tautline                                  open the desk and print its address
  tautline --open                           and show it in the browser
  tautline work timber-trailer.txt          print the worked solution
  tautline work timber-trailer.txt --pdf trailer.pdf
  tautline work - --json < slipway-winch.txt
  tautline figure buckets.txt -o buckets.svg

A question is plain text, in the English of textbooks and examination papers:

  At Marram Quay a tug tractor of mass 1800 kg tows a trailer of mass 1200 kg
  along a straight horizontal road by means of a light rigid tow-bar. The
  driving force of the tractor is 3150 N. Resistances to motion are 500 N on
  the tractor and 400 N on the trailer.
  (a) Find the acceleration of the tractor.
  (b) Find the tension in the tow-bar.";

/// Works out mechanics questions about connected bodies, and shows every step.
///
/// Without a command it opens the desk: a page on this computer, where a question is typed and its worked
/// solution, force diagrams and checks stand beside it. Nothing leaves the computer.
#[derive(Debug, Parser)]
#[command(name = "tautline", version, after_help = EXAMPLES, max_term_width = 100, args_conflicts_with_subcommands = true)]
pub(crate) struct Options {
    /// What to do; without it, the desk opens.
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
    #[command(flatten)]
    pub(crate) desk: DeskOptions,
}

/// How the desk opens.
#[derive(Args, Debug)]
#[group(id = "desk")]
pub(crate) struct DeskOptions {
    /// Port of the desk; 0 takes any that is free.
    #[arg(long, value_name = "PORT")]
    port: Option<u16>,
    /// Address of the desk. Only this computer can reach it unless you change it.
    #[arg(long, value_name = "ADDRESS")]
    address: Option<IpAddr>,
    /// Folder of questions (text files) to stand on the shelf of the desk, instead of the samples.
    #[arg(long, value_name = "DIR")]
    shelf: Option<PathBuf>,
    /// Show the desk in the browser at once.
    #[arg(long)]
    open: bool,
}

impl DeskOptions {
    /// The same in the desk's own terms.
    pub(crate) fn desk(self) -> desk::Options {
        let named = self.port.is_some() || self.address.is_some();
        let ip = self.address.unwrap_or(IpAddr::V4(Ipv4Addr::LOCALHOST));
        let addr = named.then(|| SocketAddr::new(ip, self.port.unwrap_or(desk::DEFAULT_PORT)));
        desk::Options { addr, shelf: self.shelf, open: self.open }
    }
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Print the worked solution of a question.
    ///
    /// Exit status: 0 if every part is answered, 1 if not (the reasons and their places are told), 2 if the command
    /// is misused or a file cannot be read or written.
    #[command(after_help = "\
Examples:
  tautline work divers-lift.txt
  tautline work divers-lift.txt --figures 2
  tautline work divers-lift.txt --html lift.html --pdf lift.pdf
  tautline work divers-lift.txt --ignore \"of Dutch build\"
  echo \"Masses of 2 kg and 3 kg hang from a light string over a smooth pulley ...\" | tautline work -")]
    Work(WorkOptions),
    /// Draw the situation of a question and the forces on each body, as SVG.
    #[command(after_help = "\
Examples:
  tautline figure buckets.txt -o buckets.svg              everything in one picture
  tautline figure buckets.txt --which scene -o scene.svg  the situation alone
  tautline figure buckets.txt -o pictures/                one file for each picture")]
    Figure(FigureOptions),
}

#[derive(Args, Debug)]
pub(crate) struct WorkOptions {
    /// File with the question; - for standard input.
    #[arg(value_name = "FILE")]
    pub(crate) file: PathBuf,
    /// Print one JSON object instead of text.
    #[arg(long)]
    pub(crate) json: bool,
    /// Write the worked page as HTML to this file.
    #[arg(long, value_name = "OUT")]
    pub(crate) html: Option<PathBuf>,
    /// Write the worked page as PDF to this file.
    #[arg(long, value_name = "OUT")]
    pub(crate) pdf: Option<PathBuf>,
    /// Ignore this phrase of the question, where it is not understood. May be given several times; the page says it.
    #[arg(long, value_name = "PHRASE")]
    pub(crate) ignore: Vec<String>,
    /// Significant figures of answers, where the question does not say.
    #[arg(long, value_name = "N", default_value_t = 3, value_parser = clap::value_parser!(u32).range(1..=12))]
    pub(crate) figures: u32,
}

#[derive(Args, Debug)]
pub(crate) struct FigureOptions {
    /// File with the question; - for standard input.
    #[arg(value_name = "FILE")]
    pub(crate) file: PathBuf,
    /// File for the picture, or a folder for one file each; standard output without it.
    #[arg(short, long, value_name = "OUT")]
    pub(crate) output: Option<PathBuf>,
    /// Which pictures.
    #[arg(long, value_enum, default_value_t = Which::All)]
    pub(crate) which: Which,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Which {
    /// The situation and the forces.
    All,
    /// The situation alone.
    Scene,
    /// The force diagrams alone.
    Forces,
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        Options::command().debug_assert();
    }
}
