//! Reads what a form sends: `name=value` pairs, percent-encoded (WHATWG URL standard, "application/x-www-form-urlencoded").
//!
//! Unlike the common decoders it does not put a replacement character where the text is broken: a question
//! that arrives damaged is refused, not worked.

use percent_encoding::percent_decode;

/// The fields of a form, in order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Form {
    fields: Vec<(String, String)>,
}

/// The text is not UTF-8.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct NotText;

impl Form {
    /// Reads a form. Line ends come out as `\n`, whichever way they were sent.
    pub(crate) fn read(body: &[u8]) -> Result<Form, NotText> {
        let mut fields = Vec::new();
        for pair in body.split(|&byte| byte == b'&').filter(|pair| !pair.is_empty()) {
            let mut halves = pair.splitn(2, |&byte| byte == b'=');
            let name = text(halves.next().unwrap_or_default())?;
            let value = text(halves.next().unwrap_or_default())?;
            fields.push((name, value));
        }
        Ok(Form { fields })
    }

    /// A form with nothing but a question.
    pub(crate) fn question(text: String) -> Form {
        Form { fields: vec![("question".to_owned(), text)] }
    }

    /// The first field of this name; empty where there is none.
    pub(crate) fn get(&self, name: &str) -> &str {
        self.fields.iter().find(|(key, _)| key == name).map_or("", |(_, value)| value)
    }

    /// Every field of this name, in order.
    pub(crate) fn all<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        self.fields.iter().filter(move |(key, _)| key == name).map(|(_, value)| value.as_str())
    }
}

fn text(encoded: &[u8]) -> Result<String, NotText> {
    let spaced: Vec<u8> = encoded.iter().map(|&byte| if byte == b'+' { b' ' } else { byte }).collect();
    plain(percent_decode(&spaced).collect())
}

/// Text sent as it stands.
pub(crate) fn plain(bytes: Vec<u8>) -> Result<String, NotText> {
    let text = String::from_utf8(bytes).map_err(|_| NotText)?;
    Ok(if text.contains('\r') { text.replace("\r\n", "\n").replace('\r', "\n") } else { text })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_decoded_and_line_ends_made_alike() {
        let form = Form::read(b"question=A+12%C2%B0+slope%0D%0A(a)&number=3&number=4%2B&x").unwrap();
        assert_eq!(form.get("question"), "A 12° slope\n(a)");
        assert_eq!(form.all("number").collect::<Vec<_>>(), ["3", "4+"]);
        assert_eq!(form.get("x"), "");
        assert_eq!(form.get("missing"), "");
    }

    #[test]
    fn broken_text_is_refused() {
        assert_eq!(Form::read(b"question=%FF%FE"), Err(NotText));
        assert_eq!(Form::read(&[b'q', b'=', 0xc3]), Err(NotText));
    }
}
