//! Just enough of Rust's grammar to look for words in code, and not in comments, strings or tests.

/// The code with the inside of comments, strings and characters blanked. Lines keep their numbers.
pub(crate) fn code(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    let mut out = String::with_capacity(text.len());
    let mut i = 0;
    while i < chars.len() {
        let end = match (at(i), at(i + 1)) {
            ('/', '/') => (i..chars.len()).find(|&j| at(j) == '\n').unwrap_or(chars.len()),
            ('/', '*') => end_of_comment(&chars, i),
            ('"', _) => end_of_string(&chars, i),
            ('r', '"' | '#') if !is_word(before(&chars, i)) || before(&chars, i) == 'b' => {
                end_of_raw(&chars, i)
            }
            ('\'', '\\') => (i + 3..chars.len()).find(|&j| at(j) == '\'').map_or(chars.len(), |j| j + 1),
            ('\'', _) if at(i + 2) == '\'' => i + 3,
            _ => i,
        };
        if end == i {
            out.push(at(i));
            i += 1;
        } else {
            out.extend(chars.iter().skip(i).take(end - i).map(|&c| if c == '\n' { '\n' } else { ' ' }));
            i = end;
        }
    }
    out
}

fn before(chars: &[char], i: usize) -> char {
    i.checked_sub(1).and_then(|j| chars.get(j)).copied().unwrap_or(' ')
}

/// Can this character stand in a word of code?
pub(crate) fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

fn end_of_comment(chars: &[char], start: usize) -> usize {
    let mut depth = 0_usize;
    let mut i = start;
    while i < chars.len() {
        match (chars.get(i), chars.get(i + 1)) {
            (Some('/'), Some('*')) => (depth, i) = (depth + 1, i + 2),
            (Some('*'), Some('/')) => (depth, i) = (depth.saturating_sub(1), i + 2),
            _ => i += 1,
        }
        if depth == 0 {
            break;
        }
    }
    i.min(chars.len())
}

fn end_of_string(chars: &[char], start: usize) -> usize {
    let mut i = start + 1;
    while i < chars.len() {
        match chars.get(i) {
            Some('\\') => i += 2,
            Some('"') => return i + 1,
            _ => i += 1,
        }
    }
    chars.len()
}

/// The end of `r#"..."#`; `start` itself where this is a raw name such as `r#type`.
fn end_of_raw(chars: &[char], start: usize) -> usize {
    let hashes = chars.iter().skip(start + 1).take_while(|c| **c == '#').count();
    if chars.get(start + 1 + hashes) != Some(&'"') {
        return start;
    }
    let closes = |j: usize| {
        chars.get(j) == Some(&'"')
            && chars.iter().skip(j + 1).take(hashes).filter(|c| **c == '#').count() == hashes
    };
    (start + 2 + hashes..chars.len()).find(|&j| closes(j)).map_or(chars.len(), |j| j + 1 + hashes)
}

/// Code without its test modules, and the names of test modules that stand in files of their own.
/// Takes what [`code`] gives.
pub(crate) fn without_tests(code: &str) -> (String, Vec<String>) {
    let mut kept = String::with_capacity(code.len());
    let mut outside = Vec::new();
    let mut rest = code;
    while let Some(start) = rest.find("#[cfg(test)]") {
        let (head, tail) = rest.split_at(start);
        kept.push_str(head);
        let open = tail.find('{').unwrap_or(tail.len());
        let end = match tail.find(';') {
            Some(semicolon) if semicolon < open => {
                let item = tail.get(..semicolon).unwrap_or_default();
                if let Some((_, name)) = item.rsplit_once("mod ") {
                    outside.push(name.trim().to_owned());
                }
                semicolon + 1
            }
            _ => open + closing_brace(tail.get(open..).unwrap_or_default()),
        };
        let (test, after) = tail.split_at(end.min(tail.len()));
        kept.extend(test.chars().filter(|c| *c == '\n'));
        rest = after;
    }
    kept.push_str(rest);
    (kept, outside)
}

/// The length of a block up to its closing brace.
fn closing_brace(block: &str) -> usize {
    let mut depth = 0_usize;
    for (i, c) in block.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth == 0 {
            return i + c.len_utf8();
        }
    }
    block.len()
}

/// The lines (counted from 1) where this stands as a whole word, not as part of a longer one.
pub(crate) fn lines_with(code: &str, word: &str) -> Vec<usize> {
    let stands = |line: &str| {
        line.match_indices(word).any(|(i, _)| {
            let (head, tail) = (line.get(..i), line.get(i + word.len()..));
            let joined =
                |c: Option<char>, edge: Option<char>| c.is_some_and(is_word) && edge.is_some_and(is_word);
            !joined(head.and_then(|h| h.chars().next_back()), word.chars().next())
                && !joined(tail.and_then(|t| t.chars().next()), word.chars().next_back())
        })
    };
    (1..).zip(code.lines()).filter(|(_, line)| stands(line)).map(|(number, _)| number).collect()
}

/// The lines with a number that has a decimal point.
pub(crate) fn lines_with_decimals(code: &str) -> Vec<usize> {
    let has = |line: &str| {
        let chars: Vec<char> = line.chars().collect();
        (0..chars.len()).any(|i| {
            let digit = |j: usize| chars.get(j).is_some_and(char::is_ascii_digit);
            let starts = digit(i) && !is_word(before(&chars, i)) && before(&chars, i) != '.';
            let whole = chars.iter().skip(i).take_while(|c| c.is_ascii_digit() || **c == '_').count();
            starts && chars.get(i + whole) == Some(&'.') && digit(i + whole + 1)
        })
    };
    (1..).zip(code.lines()).filter(|(_, line)| has(line)).map(|(number, _)| number).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_strings_and_characters_are_blanked() {
        let text = "let a = \"f64 // \\\" f64\"; // f64\n/* f64 /* f64 */ f64\n*/ let b = r#\"f64 \" f64\"#;\n\
                    let c: &'static str = b\"f64\"; let d = '\"'; let e = f64::MAX; let f = '\\'';";
        let plain = code(text);
        assert_eq!(plain.matches("f64").count(), 1, "only the one in code is left: {plain}");
        assert!(plain.contains("&'static str") && plain.contains("let f ="));
        assert_eq!(lines_with(&plain, "f64"), [4], "lines keep their numbers");
    }

    #[test]
    fn test_modules_are_left_out() {
        let text = "fn a() {}\n#[cfg(test)]\nmod tests {\n  fn b() { if true { } }\n}\n\
                    #[cfg(test)]\n#[path = \"x.rs\"]\nmod more;\nfn c() {}";
        let (kept, outside) = without_tests(&code(text));
        assert!(kept.contains("fn a") && kept.contains("fn c") && !kept.contains("fn b"));
        assert_eq!(outside, ["more"]);
        assert_eq!(lines_with(&kept, "fn c"), [9]);
    }

    #[test]
    fn only_whole_words_are_found() {
        assert_eq!(lines_with("to_f64()\nx as f64;\nlet f640 = 1;", "f64"), [2]);
        assert_eq!(lines_with("std::fs::read\nstd::fstab", "std::fs"), [1]);
    }

    #[test]
    fn decimals_are_told_from_fields_and_ranges() {
        assert_eq!(lines_with_decimals("let a = 0.5;\nx.0.1\n0..5\n1.max(2)\nv3.2\nf(12_000.25)"), [1, 6]);
    }
}
