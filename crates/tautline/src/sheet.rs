//! Several figures on one sheet: one SVG, each figure with its caption, in rows.

use figure::Figure;

/// A row is at most so wide, in pixels, unless one figure alone is wider.
const WIDEST: f64 = 900.0;
/// Space between figures and round them.
const GAP: f64 = 16.0;
/// Room for a letter of a caption, in whatever serif face the machine has.
const LETTER: f64 = 7.4;
/// Height of a caption.
const CAPTION: f64 = 24.0;

/// All figures as one SVG. One figure alone stays as it is.
pub(crate) fn sheet(figures: &[&Figure]) -> String {
    if let [one] = figures {
        return one.svg.clone();
    }
    let (mut x, mut y, mut row, mut width) = (GAP, GAP, 0.0_f64, 0.0_f64);
    let mut body = String::new();
    for figure in figures {
        let slot = figure.width.max(figure.caption.chars().count() as f64 * LETTER);
        if x > GAP && x + slot + GAP > WIDEST {
            (x, y, row) = (GAP, y + row + CAPTION + GAP, 0.0);
        }
        let placed = figure.svg.replacen("<svg ", &format!("<svg x=\"{x}\" y=\"{y}\" "), 1);
        body.push_str(placed.trim_end());
        let below = y + figure.height + CAPTION * 0.7;
        body.push_str(&format!(
            "<text x=\"{x}\" y=\"{below}\" font-family=\"Libertinus Serif, Georgia, serif\" font-size=\"14\" \
             font-style=\"italic\" fill=\"#1b1b1b\">{}</text>",
            escaped(&figure.caption)
        ));
        row = row.max(figure.height);
        x += slot + GAP;
        width = width.max(x);
    }
    let height = y + row + CAPTION + GAP;
    let titles: Vec<&str> = figures.iter().map(|f| f.title.as_str()).collect();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" \
         height=\"{height}\" role=\"group\" aria-label=\"{}\">{body}</svg>\n",
        escaped(&titles.join("; "))
    )
}

/// A file name for a figure: its place and its title, in plain letters.
pub(crate) fn file_name(place: usize, figure: &Figure) -> String {
    let words: Vec<String> = figure
        .caption
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|w| !w.is_empty())
        .take(8)
        .map(str::to_ascii_lowercase)
        .collect();
    format!("{place:02}-{}.svg", if words.is_empty() { "figure".to_owned() } else { words.join("-") })
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
