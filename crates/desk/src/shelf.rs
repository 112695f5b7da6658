//! The shelf: sample questions, carried by the program or read from a folder.

use std::path::Path;
use std::{fs, io};

use model::{Line, Situation};

use crate::error::DeskError;

/// The questions that the program carries: file name without `.txt`, text.
static CARRIED: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/shelf.rs"));

/// A folder's text files beyond this many bytes are no questions.
const LARGEST: u64 = 64 * 1024;

/// A sample question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sample {
    /// Its name in an address: the file name without `.txt`.
    pub name: String,
    /// Its title for people: `Timber trailer`.
    pub title: String,
    /// The question.
    pub text: String,
    /// The arrangement it belongs to, such as `Over a pulley`.
    pub arrangement: &'static str,
}

/// Sample questions in the order of their file names.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shelf {
    samples: Vec<Sample>,
}

impl Shelf {
    /// The shelf that the program carries.
    ///
    /// ```
    /// let shelf = desk::Shelf::carried();
    /// assert_eq!(shelf.sample("01-timber-trailer").map(|s| s.title.as_str()), Some("Timber trailer"));
    /// ```
    pub fn carried() -> Shelf {
        CARRIED.iter().map(|(name, text)| (*name, *text)).collect()
    }

    /// The `.txt` files of a folder. Files that are not UTF-8 or longer than 64 KiB are left out.
    ///
    /// # Errors
    ///
    /// [`DeskError::Shelf`] where the folder or one of its files can't be read.
    pub fn from_folder(folder: &Path) -> Result<Shelf, DeskError> {
        let failed = |why: io::Error| DeskError::Shelf(folder.to_owned(), why);
        let mut found = Vec::new();
        for entry in fs::read_dir(folder).map_err(failed)? {
            let path = entry.map_err(failed)?.path();
            if path.extension().is_none_or(|extension| extension != "txt") {
                continue;
            }
            let details = fs::metadata(&path).map_err(failed)?;
            let Some(name) = path.file_stem().and_then(|stem| stem.to_str()) else { continue };
            if !details.is_file() || details.len() > LARGEST {
                continue;
            }
            if let Ok(text) = String::from_utf8(fs::read(&path).map_err(failed)?) {
                found.push((name.to_owned(), text));
            }
        }
        found.sort();
        Ok(found.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect())
    }

    /// All samples.
    pub fn samples(&self) -> &[Sample] {
        &self.samples
    }

    /// The sample with this name.
    pub fn sample(&self, name: &str) -> Option<&Sample> {
        self.samples.iter().find(|sample| sample.name == name)
    }

    /// The samples in whose title or text every one of these words begins a word, capitals or not.
    ///
    /// ```
    /// let shelf = desk::Shelf::carried();
    /// assert!(shelf.find("tow timber").iter().any(|sample| sample.title == "Timber trailer"));
    /// ```
    pub fn find(&self, words: &str) -> Vec<&Sample> {
        let wanted: Vec<String> = words.split_whitespace().map(str::to_lowercase).collect();
        let holds = |sample: &Sample| {
            let text = format!("{} {}", sample.title, sample.text).to_lowercase();
            wanted.iter().all(|word| begins_a_word(&text, word))
        };
        self.samples.iter().filter(|sample| holds(sample)).collect()
    }
}

impl<'a> FromIterator<(&'a str, &'a str)> for Shelf {
    fn from_iter<I: IntoIterator<Item = (&'a str, &'a str)>>(files: I) -> Shelf {
        let samples = files
            .into_iter()
            .map(|(name, text)| Sample {
                name: name.to_owned(),
                title: title(name),
                text: text.replace("\r\n", "\n").trim_end().to_owned(),
                arrangement: arrangement(&worked::work(text, &worked::Settings::default()).reading.situation),
            })
            .collect();
        Shelf { samples }
    }
}

fn begins_a_word(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| {
        text.get(..at).and_then(|before| before.chars().next_back()).is_none_or(|c| !c.is_alphanumeric())
    })
}

/// `01-timber-trailer` is the file of `Timber trailer`.
fn title(name: &str) -> String {
    let words = name.trim_start_matches(|c: char| c.is_ascii_digit() || c == '-' || c == '_');
    let words = if words.is_empty() { name } else { words };
    let words = words.replace(['-', '_'], " ");
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// What a class would call the set-up, from the lines that its bodies move along.
fn arrangement(situation: &Situation) -> &'static str {
    let on = |is: fn(&Line) -> bool| situation.bodies.iter().any(|body| is(&body.line));
    let slope = on(|line| matches!(line, Line::Slope { .. }));
    let level = on(|line| matches!(line, Line::Level));
    match (situation.pulleys.is_empty(), slope, level) {
        _ if situation.bodies.is_empty() => "Other questions",
        (false, true, _) => "Slope and pulley",
        (false, false, true) => "Table and pulley",
        (false, false, false) => "Over a pulley",
        (true, true, _) => "On a slope",
        (true, false, true) => "On the level",
        (true, false, false) => "Lifts and hoists",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_is_the_file_name_in_words() {
        assert_eq!(title("01-timber-trailer"), "Timber trailer");
        assert_eq!(title("14-masses-m-and-3m"), "Masses m and 3m");
        assert_eq!(title("2024"), "2024");
        assert_eq!(title(""), "");
    }

    #[test]
    fn words_find_titles_and_texts_from_their_beginnings() {
        let shelf: Shelf =
            [("1-sea-wall", "A Block of stone."), ("2-hoist", "A sack.")].into_iter().collect();
        let found = |words| shelf.find(words).iter().map(|s| s.name.as_str()).collect::<Vec<_>>();
        assert_eq!(found("sto SEA"), ["1-sea-wall"]);
        assert_eq!(found("tone"), Vec::<&str>::new());
        assert_eq!(found(" "), ["1-sea-wall", "2-hoist"]);
    }

    #[test]
    fn a_folder_gives_its_text_files_in_order_and_leaves_others_out() {
        let folder = tempfile::tempdir().unwrap();
        let write = |name: &str, bytes: &[u8]| fs::write(folder.path().join(name), bytes).unwrap();
        write("b-two.txt", b"Second.\r\nLine.\n");
        write("a-one.txt", b"First.");
        write("c-noise.txt", &[0xff, 0xfe, 0x00]);
        write("d.answers", b"a\tforce");
        let shelf = Shelf::from_folder(folder.path()).unwrap();
        let texts: Vec<_> = shelf.samples().iter().map(|s| (s.title.as_str(), s.text.as_str())).collect();
        assert_eq!(texts, [("A one", "First."), ("B two", "Second.\nLine.")]);
    }

    #[test]
    fn a_folder_that_is_not_there_is_named() {
        let error = Shelf::from_folder(Path::new("/no/such/shelf")).unwrap_err();
        assert!(error.to_string().contains("/no/such/shelf"), "{error}");
    }

    #[test]
    fn a_sample_stands_with_its_arrangement() {
        let shelf: Shelf = [
            ("pulley", "Particles P and Q, of masses 3 kg and 5 kg, are connected by a light inextensible string. The string passes over a smooth fixed pulley and both particles hang freely with the string taut. The particles are released from rest. Find the acceleration of Q."),
            ("kippers", "What is the price of kippers?"),
        ]
        .into_iter()
        .collect();
        let groups: Vec<_> = shelf.samples().iter().map(|sample| sample.arrangement).collect();
        assert_eq!(groups, ["Over a pulley", "Other questions"]);
    }

    #[test]
    fn the_program_carries_its_shelf() {
        let shelf = Shelf::carried();
        assert!(shelf.samples().len() >= 25, "{} questions", shelf.samples().len());
        assert!(shelf.samples().iter().all(|sample| !sample.text.is_empty()));
    }
}
