//! Reads a question from a file or from standard input: at most so many bytes, and only as UTF-8.

use model::{Diagnostic, Refusal, Span};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// No question is longer than this, in bytes. A longer text is refused before it is read.
const LONGEST: u64 = 1_000_000;

/// What came in.
pub(crate) enum Input {
    /// The text of the question.
    Text(String),
    /// It cannot be a question: why.
    Refused(Diagnostic),
}

/// Reads a file, or standard input for `-`.
///
/// # Errors
/// The file is not there or cannot be read.
pub(crate) fn read(file: &Path) -> io::Result<Input> {
    let mut bytes = Vec::new();
    if file == Path::new("-") {
        io::stdin().lock().take(LONGEST + 1).read_to_end(&mut bytes)?;
    } else {
        File::open(file)?.take(LONGEST + 1).read_to_end(&mut bytes)?;
    }
    Ok(understood(bytes))
}

fn understood(bytes: Vec<u8>) -> Input {
    if bytes.len() as u64 > LONGEST {
        let message = format!("the text is longer than any question: more than {LONGEST} bytes");
        return Input::Refused(
            Diagnostic::refuse(Refusal::Unread, message).hint("give one question at a time"),
        );
    }
    match String::from_utf8(bytes) {
        Ok(text) => Input::Text(text),
        Err(why) => {
            let first = why.utf8_error().valid_up_to();
            let message =
                format!("the text is not UTF-8: the first byte that does not fit is at offset {first}");
            let refused = Diagnostic::refuse(Refusal::Unread, message)
                .at(Span::new(first, first + 1))
                .hint("save the question as plain text in UTF-8");
            Input::Refused(refused)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_byte_that_is_not_text_is_named() {
        let Input::Refused(d) = understood(b"mass 3 kg \xff\xfe and".to_vec()) else {
            panic!("these bytes are not UTF-8");
        };
        assert!(d.message.contains("offset 10"), "{}", d.message);
    }

    #[test]
    fn a_text_of_a_megabyte_and_one_is_refused() {
        assert!(matches!(understood(vec![b'a'; 1_000_000]), Input::Text(_)));
        assert!(matches!(understood(vec![b'a'; 1_000_001]), Input::Refused(_)));
    }
}
