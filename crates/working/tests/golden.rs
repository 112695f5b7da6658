//! The working of a dozen situations as text, line by line: what a class would copy down.

mod common;

#[test]
fn the_working_reads_as_expected() {
    for (name, situation) in common::all() {
        let text = common::worked(&situation).plain();
        insta::with_settings!({ omit_expression => true, description => name, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name.replace([' ', ','], "_"), text);
        });
    }
}
