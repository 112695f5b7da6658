//! The look of the page on screen: a white sheet with a margin rule.

use crate::fonts::fonts;

/// The stylesheet for documents and for the pages around them.
///
/// It sets custom properties on `:root` (`--ink`, `--page`, `--blue`, ...) and
/// rules below the class `leaf`; nothing else is touched. It fetches nothing:
/// faces are asked for by name, with the reader's own serif as a fallback.
pub fn stylesheet() -> &'static str {
    include_str!("look.css")
}

/// `@font-face` rules for the [`fonts`], each at `prefix` followed by its file name.
///
/// ```
/// let rules = paper::font_faces("/fonts/");
/// assert!(rules.contains(r#"url("/fonts/libertinus-serif-400-italic.otf")"#));
/// ```
pub fn font_faces(prefix: &str) -> String {
    let prefix = url(prefix);
    let mut out = String::new();
    for font in fonts() {
        out.push_str(&format!(
            "@font-face {{ font-family: \"{}\"; font-style: {}; font-weight: {}; font-display: swap; \
             src: url(\"{prefix}{}\") format(\"opentype\"); }}\n",
            font.family,
            font.style,
            css_weight(font.weight),
            font.file
        ));
    }
    out
}

/// The book weight of the maths face stands in for every weight asked of it.
fn css_weight(weight: u16) -> String {
    if matches!(weight, 400 | 700) { weight.to_string() } else { "400 700".to_owned() }
}

/// A URL prefix inside a CSS string: what could end the string is percent-encoded.
fn url(prefix: &str) -> String {
    let mut out = String::new();
    for c in prefix.chars() {
        match c {
            '"' | '\\' | '\'' | '<' | '>' | ' ' => out.push_str(&format!("%{:02X}", c as u32)),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_prefix_cannot_leave_its_string() {
        let rules = font_faces("/x\") } body { color: red }");
        assert!(!rules.contains("\") }"), "{rules}");
    }

    #[test]
    fn the_stylesheet_fetches_nothing() {
        assert!(!stylesheet().contains("url(") && !stylesheet().contains("@import"));
        assert!(!stylesheet().contains('<'), "it stands inside a style element");
    }

    /// Contrast as WCAG 2.2 defines it (success criterion 1.4.3, "relative luminance").
    #[test]
    fn text_colours_reach_four_and_a_half_to_one_on_the_page() {
        let value = |name: &str| {
            let (_, rest) = stylesheet().split_once(&format!("--{name}: #")).expect(name);
            u32::from_str_radix(&rest[..6], 16).expect("six hexadecimal digits")
        };
        let luminance = |rgb: u32| {
            let channel = |shift: u32| {
                let c = f64::from(rgb >> shift & 0xFF) / 255.0;
                if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * channel(16) + 0.7152 * channel(8) + 0.0722 * channel(0)
        };
        let page = luminance(value("page"));
        for name in ["ink", "quiet", "blue"] {
            let contrast = (page + 0.05) / (luminance(value(name)) + 0.05);
            assert!(contrast >= 4.5, "{name}: {contrast:.2}");
        }
        // Lines and marks need 3 to 1 (1.4.11).
        let contrast = (page + 0.05) / (luminance(value("vermilion")) + 0.05);
        assert!(contrast >= 3.0, "vermilion: {contrast:.2}");
    }
}
